package dxfread

import (
	"context"
	"errors"
	"fmt"
	"io"
)

// SyntaxError tells where a file stops making sense. Read still returns what
// came before it.
type SyntaxError struct {
	Line int64 // line of an ASCII file, byte offset of a binary one
	Err  error
}

func (e *SyntaxError) Error() string { return fmt.Sprintf("line %d: %v", e.Line, e.Err) }

// Unwrap gives the cause.
func (e *SyntaxError) Unwrap() error { return e.Err }

// Causes of a SyntaxError.
var (
	ErrNotDXF    = errors.New("not a DXF file")
	ErrDWG       = errors.New("this is a DWG file; export it as DXF (ASCII, 2000 or later)")
	ErrTruncated = errors.New("the file ends too early")
	ErrTooLarge  = errors.New("the file is larger than the limit")
)

// Read reads a whole DXF file. On a SyntaxError the drawing holds what was
// read before the place of the error. It stops within 100 ms of ctx's end.
func Read(ctx context.Context, r io.Reader, lim Limits) (*Drawing, error) {
	panic("dxfread: not written yet")
}

// Decode is Read on bytes in memory; data is not kept or modified.
func Decode(ctx context.Context, data []byte, lim Limits) (*Drawing, error) {
	panic("dxfread: not written yet")
}
