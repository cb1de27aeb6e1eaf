package dxfread

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
)

// SyntaxError tells where a file stops making sense. Read still returns what
// came before it.
type SyntaxError struct {
	Line   int64 // line of an ASCII file, byte offset of a binary one; 0: the whole file
	Binary bool  // Line is a byte offset
	Err    error
}

func (e *SyntaxError) Error() string {
	if e.Line == 0 && !e.Binary {
		return e.Err.Error()
	}
	if e.Binary {
		return fmt.Sprintf("byte %d: %v", e.Line, e.Err)
	}
	return fmt.Sprintf("line %d: %v", e.Line, e.Err)
}

// Unwrap gives the cause.
func (e *SyntaxError) Unwrap() error { return e.Err }

// Causes of a SyntaxError.
var (
	ErrNotDXF    = errors.New("not a DXF file")
	ErrDWG       = errors.New("this is a DWG file; export it as DXF (ASCII, 2000 or later)")
	ErrTruncated = errors.New("the file ends too early")
	ErrTooLarge  = errors.New("the file is larger than the limit")
)

// Defaults of Limits.
const (
	defaultBytes  = 1 << 30
	defaultPlaced = 5e6
	defaultDepth  = 32
)

// filled gives the limits with defaults in place of zeros.
func (l Limits) filled() Limits {
	if l.Bytes <= 0 {
		l.Bytes = defaultBytes
	}
	if l.Placed <= 0 {
		l.Placed = defaultPlaced
	}
	if l.Depth <= 0 {
		l.Depth = defaultDepth
	}
	return l
}

// Read reads a whole DXF file. On a SyntaxError the drawing holds what was
// read before the place of the error. What its first bytes, or the size of a
// regular file, show to be no drawing or too large is not read. It stops within 100 ms of ctx's end,
// also while r keeps it waiting; r must not be used after that. On any other
// error the drawing is nil.
func Read(ctx context.Context, r io.Reader, lim Limits) (*Drawing, error) {
	lim = lim.filled()
	if f, ok := r.(*os.File); ok {
		if st, err := f.Stat(); err == nil && st.Mode().IsRegular() && st.Size() > lim.Bytes {
			return &Drawing{Bytes: st.Size()}, tooLarge(lim.Bytes)
		}
	}
	data, err := readAll(ctx, r, lim.Bytes)
	if err != nil {
		return nil, err
	}
	return Decode(ctx, data, lim)
}

func tooLarge(limit int64) error {
	return &SyntaxError{Err: fmt.Errorf("%w of %s", ErrTooLarge, byteText(limit))}
}

// byteText is a number of bytes for people: "1 GiB".
func byteText(n int64) string {
	for _, u := range []struct {
		size int64
		name string
	}{{1 << 30, "GiB"}, {1 << 20, "MiB"}, {1 << 10, "KiB"}} {
		if n >= u.size && n%u.size == 0 {
			return fmt.Sprintf("%d %s", n/u.size, u.name)
		}
	}
	return fmt.Sprintf("%d bytes", n)
}

// readAll reads at most limit+1 bytes; Decode tells that this is too many.
// A reader that may wait for ever is read beside, so that ctx can end it.
func readAll(ctx context.Context, r io.Reader, limit int64) ([]byte, error) {
	size := int64(0)
	waits := true
	switch f := r.(type) {
	case *bytes.Reader:
		size, waits = int64(f.Len()), false
	case *os.File:
		if st, err := f.Stat(); err == nil && st.Mode().IsRegular() {
			size, waits = st.Size(), false
		}
	}
	if !waits || ctx.Done() == nil {
		return readChunks(ctx, r, limit, size)
	}
	type result struct {
		data []byte
		err  error
	}
	done := make(chan result, 1)
	go func() {
		data, err := readChunks(ctx, r, limit, size)
		done <- result{data, err}
	}()
	select {
	case <-ctx.Done():
		return nil, ctx.Err()
	case res := <-done:
		return res.data, res.err
	}
}

// readChunks reads up to limit+1 bytes and looks at ctx between chunks. It ends
// after the first chunk if that is the beginning of no DXF file. The size is a
// hint, believed up to 64 MiB before anything was read.
func readChunks(ctx context.Context, r io.Reader, limit, size int64) ([]byte, error) {
	const chunk = 1 << 20
	buf := make([]byte, 0, min(max(size+1, 4096), limit+1))
	for {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if len(buf) == cap(buf) {
			// So much has come that the stated size is likely true.
			want := int64(2 * cap(buf))
			if size >= int64(len(buf)) {
				want = size + 1
			}
			grown := make([]byte, len(buf), min(want, max(limit+1, 1)))
			copy(grown, buf)
			buf = grown
		}
		first := len(buf) < headBytes
		n, err := r.Read(buf[len(buf):min(cap(buf), len(buf)+chunk)])
		buf = buf[:len(buf)+n]
		if first && len(buf) >= headBytes && refuse(buf) != nil {
			return buf, nil // Decode tells why
		}
		switch {
		case errors.Is(err, io.EOF) || int64(len(buf)) > limit:
			return buf, nil
		case err != nil:
			return nil, fmt.Errorf("read drawing: %w", err)
		}
	}
}

// Decode is Read on bytes in memory; data is not kept or modified. Great files
// are decoded on several processors.
func Decode(ctx context.Context, data []byte, lim Limits) (*Drawing, error) {
	return decode(ctx, data, lim, defaultChunking())
}

// decode is Decode with the file parted as asked; the result does not depend on
// that.
func decode(ctx context.Context, data []byte, lim Limits, parts chunking) (*Drawing, error) {
	lim = lim.filled()
	d := &Drawing{Bytes: int64(len(data))}
	if int64(len(data)) > lim.Bytes {
		return d, tooLarge(lim.Bytes)
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s, err := newScanner(ctx, data)
	if err != nil {
		return d, err
	}
	rd := newReader(s, d)
	rd.chunking = parts
	err = rd.file()
	rd.finish()
	if err != nil && ctx.Err() != nil && errors.Is(err, ctx.Err()) {
		return nil, err
	}
	return d, err
}
