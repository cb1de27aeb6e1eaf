package dxfread

// slab hands out values from blocks that grow up to a limit: one allocation
// for many entities, and no more than a few spare values in a small drawing.
type slab[T any] struct {
	free []T
	size int
}

func (s *slab[T]) take() *T {
	if len(s.free) == 0 {
		s.size = min(max(2*s.size, 8), 512)
		s.free = make([]T, s.size)
	}
	p := &s.free[0]
	s.free = s.free[1:]
	return p
}

// arena hands out slices that are copies of what is given.
type arena[T any] struct {
	free []T
	size int
}

func (a *arena[T]) keep(src []T) []T {
	n := len(src)
	if n == 0 {
		return nil
	}
	if n > len(a.free) {
		a.size = min(max(2*a.size, 16), 2048)
		if n > a.size/4 {
			return append(make([]T, 0, n), src...)
		}
		a.free = make([]T, a.size)
	}
	out := a.free[:n:n]
	a.free = a.free[n:]
	copy(out, src)
	return out
}
