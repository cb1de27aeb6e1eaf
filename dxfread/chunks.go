package dxfread

import (
	"bytes"
	"math"
	"runtime"
	"slices"
	"sync"
)

// The section ENTITIES of a great file is decoded in chunks side by side. A
// chunk begins where a line that reads as the group code 0 is followed by a
// line that begins with a letter. Were the first of them a value, the second
// would have to be a group code, which it is not: so the place is either the
// start of an entity, or the file is broken there. Which of them, the chunk
// before tells: only if it arrives at exactly that line, between two entities,
// is the chunk taken. The drawing is therefore the one that reading in one go
// gives, down to its notes and the line of its errors.

// chunking says how a file is parted; the zero value reads in one go.
type chunking struct {
	workers int
	bytes   int // length of a chunk, to which the next entity is searched
}

// defaultChunking uses the processors that the program has. A chunk is long
// enough that starting it costs nothing and short enough that few are read in
// vain behind the end of the section.
func defaultChunking() chunking {
	return chunking{workers: min(runtime.GOMAXPROCS(0), 8), bytes: 512 << 10}
}

// chunk is a run of entities that one worker decodes.
type chunk struct {
	index int
	pos   int   // where it begins
	line  int64 // the number of that line
	stop  int64 // the line at which the next chunk begins

	r       *reader // what was read; its scanner tells where reading ended
	more    bool    // a pair is at hand there
	stopped bool    // it ended at exactly the line stop
}

// readBeside decodes entities in chunks from the pair at hand on. It returns
// true if a pair is at hand after them: the first that no chunk could take.
func (r *reader) readBeside() bool {
	c := r.chunking
	left := len(r.s.data) - r.s.pos
	if c.workers < 2 || left < 2*c.bytes || r.s.form != formASCII || r.s.code != 0 {
		return true
	}
	p := newParting(r)
	if p == nil {
		return true
	}
	var group sync.WaitGroup
	for range min(c.workers, left/c.bytes) {
		group.Go(func() {
			var mem store
			for k := p.take(); k != nil; k = p.take() {
				w := r.fork(k)
				w.store = mem
				k.more, k.stopped = w.run(k.index == 0 || w.s.next(), k.stop)
				mem, w.store = w.store, store{}
				if k.r = w; !k.stopped {
					p.end(k)
				}
			}
		})
	}
	group.Wait()
	return r.joinChunks(p.chunks)
}

// parting hands out the chunks in the order of the file.
type parting struct {
	mu     sync.Mutex
	r      *reader
	mark   []byte // a line end, and the line of group code 0 as the file spells it
	pos    int    // where the next chunk begins; -1 if there is none
	line   int64
	chunks []*chunk
	ended  int // index of the first chunk that did not reach the next one
}

// newParting begins behind the pair at hand of r, which has group code 0.
func newParting(r *reader) *parting {
	s := &r.s
	start := bytes.LastIndexByte(s.data[:s.lo-1], s.term)
	if start < 0 {
		return nil
	}
	return &parting{r: r, mark: s.data[start:s.lo], pos: s.pos, line: s.line, ended: math.MaxInt}
}

// take gives the next chunk, nil if there is none that could still count.
func (p *parting) take() *chunk {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.pos < 0 || len(p.chunks) > p.ended {
		return nil
	}
	data := p.r.s.data
	k := &chunk{index: len(p.chunks), pos: p.pos, line: p.line, stop: math.MaxInt64}
	p.chunks = append(p.chunks, k)
	from := p.pos
	p.pos = -1
	if i := p.boundary(from + p.r.chunking.bytes); i >= 0 {
		p.pos = i
		p.line += int64(bytes.Count(data[from:i], p.mark[:1]))
		k.stop = p.line
	}
	return k
}

// boundary finds the first line at which a chunk may begin behind position i,
// -1 if there is none.
func (p *parting) boundary(i int) int {
	data := p.r.s.data
	for i < len(data) {
		n := bytes.Index(data[i:], p.mark)
		if n < 0 {
			return -1
		}
		start := i + n + 1
		name := data[i+n+len(p.mark):]
		if len(name) > 6 && name[0] >= 'A' && name[0] <= 'Z' {
			switch string(name[:6]) {
			case "VERTEX", "SEQEND", "ATTRIB": // parts of the entity before
			default:
				return start
			}
		}
		i = start
	}
	return -1
}

// end tells that k did not reach the next chunk: later ones are not needed.
func (p *parting) end(k *chunk) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.ended = min(p.ended, k.index)
}

// fork makes a reader for a chunk. It sees the layers and linetypes of r, which
// nobody changes meanwhile, and keeps those that it meets first by itself.
func (r *reader) fork(k *chunk) *reader {
	w := &reader{s: r.s, d: &Drawing{}, coder: r.coder, base: r, layerBase: len(r.d.Layers), typeBase: len(r.d.Types),
		layers: map[string]int32{}, types: map[string]int32{}, layoutAt: map[string]int{}}
	w.layerRaw.base, w.typeRaw.base = r.layerRaw.all, r.typeRaw.all
	w.notes.unbounded = true
	if k.index > 0 {
		w.s.pos, w.s.line = k.pos, k.line
		w.s.poll, w.s.plainEnd = 0, 0
	}
	return w
}

// joinChunks takes the chunks into r, in their order, up to the first that did
// not reach the next, and goes on where that one ended.
func (r *reader) joinChunks(chunks []*chunk) bool {
	n, entities := 0, 0
	for n < len(chunks) {
		entities += len(chunks[n].r.d.Model)
		if n++; !chunks[n-1].stopped {
			break
		}
	}
	r.d.Model = slices.Grow(r.d.Model, entities)
	for _, k := range chunks[:n] {
		r.takeIn(k.r)
	}
	last := chunks[n-1]
	r.s = last.r.s
	return last.more
}

// takeIn adds what w has read behind what r has. The layers and linetypes that
// w met first have numbers from w.layerBase and w.typeBase on.
func (r *reader) takeIn(w *reader) {
	layers := make([]int32, len(w.d.Layers))
	moved := false
	for i := range layers {
		layers[i] = r.layer(w.d.Layers[i].Name)
		moved = moved || int(layers[i]) != w.layerBase+i
	}
	types := make([]int32, len(w.d.Types))
	for i := range types {
		types[i] = r.linetype(w.d.Types[i].Name)
		moved = moved || int(types[i]) != w.typeBase+i
	}
	if moved {
		w.d.eachCommon(func(c *Common) {
			if i := int(c.Layer) - w.layerBase; i >= 0 {
				c.Layer = layers[i]
			}
			if i := int(c.Linetype) - w.typeBase; i >= 0 {
				c.Linetype = types[i]
			}
		})
	}
	r.d.Model = append(r.d.Model, w.d.Model...)
	for _, l := range w.d.Layouts {
		i := r.layout(l.Name)
		r.d.Layouts[i].Entities = append(r.d.Layouts[i].Entities, l.Entities...)
	}
	for _, n := range w.notes.notes {
		r.notes.addTimes(n.Code, n.Text, n.Line, n.Handle, n.Count)
	}
	r.coder.wrong = r.coder.wrong || w.coder.wrong
	r.coder.other = r.coder.other || w.coder.other
	r.dimStyles = append(r.dimStyles, w.dimStyles...)
}
