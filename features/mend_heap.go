package features

import "math"

// candidateHeap gives the candidates by size, smallest area first. Areas of
// equal bites differ by rounding only; as equal bites that do not overlap do not
// disturb each other, their order does not reach the result. Overlapping ones
// are told apart by the mouth, then by place. Only numbers of candidates move in
// the heap: a candidate is large, and ten thousands are tried on a long outline.
type candidateHeap struct {
	ids  []int32
	all  []candidate
	free []int32 // places in all that were given up
}

func (h *candidateHeap) reset() { h.ids, h.all, h.free = h.ids[:0], h.all[:0], h.free[:0] }

func (h *candidateHeap) less(x, y int) bool {
	a, b := &h.all[h.ids[x]], &h.all[h.ids[y]]
	if a.tier != b.tier {
		return a.tier < b.tier
	}
	if math.Abs(a.area-b.area) > 1e-9*(a.area+b.area) {
		return a.area < b.area
	}
	if a.kind != b.kind {
		return a.kind < b.kind
	}
	if a.mouth != b.mouth {
		return a.mouth < b.mouth
	}
	if a.a.Y != b.a.Y {
		return a.a.Y < b.a.Y
	}
	return a.a.X < b.a.X
}

// put adds a candidate at the end; the heap wants ordering afterwards.
func (h *candidateHeap) put(c candidate) {
	if n := len(h.free); n > 0 {
		id := h.free[n-1]
		h.free = h.free[:n-1]
		h.all[id] = c
		h.ids = append(h.ids, id)
		return
	}
	h.all = append(h.all, c)
	h.ids = append(h.ids, int32(len(h.all)-1))
}

func (h *candidateHeap) push(c candidate) {
	h.put(c)
	h.up(len(h.ids) - 1)
}

func (h *candidateHeap) order() {
	for i := len(h.ids)/2 - 1; i >= 0; i-- {
		h.down(i, len(h.ids))
	}
}

func (h *candidateHeap) least() *candidate { return &h.all[h.ids[0]] }

func (h *candidateHeap) pop() candidate {
	n := len(h.ids) - 1
	h.ids[0], h.ids[n] = h.ids[n], h.ids[0]
	h.down(0, n)
	id := h.ids[n]
	h.ids = h.ids[:n]
	h.free = append(h.free, id)
	return h.all[id]
}

func (h *candidateHeap) up(i int) {
	for i > 0 {
		parent := (i - 1) / 2
		if !h.less(i, parent) {
			return
		}
		h.ids[i], h.ids[parent] = h.ids[parent], h.ids[i]
		i = parent
	}
}

func (h *candidateHeap) down(i, n int) {
	for {
		k := 2*i + 1
		if k >= n {
			return
		}
		if k+1 < n && h.less(k+1, k) {
			k++
		}
		if !h.less(k, i) {
			return
		}
		h.ids[i], h.ids[k] = h.ids[k], h.ids[i]
		i = k
	}
}
