package features

// groups puts numbered things into groups: each number leads to one of its
// group, the least of them to itself.
type groups []int

func newGroups(n int) groups {
	g := make(groups, n)
	for i := range g {
		g[i] = i
	}
	return g
}

// root is the least number of i's group.
func (g groups) root(i int) int {
	for g[i] != i {
		g[i] = g[g[i]]
		i = g[i]
	}
	return i
}

// unite makes one group of those of i and k.
func (g groups) unite(i, k int) {
	r, s := g.root(i), g.root(k)
	g[max(r, s)] = min(r, s)
}

// number is how many groups there are.
func (g groups) number() (n int) {
	for i := range g {
		if g[i] == i {
			n++
		}
	}
	return n
}

// members lists the numbers of each group, ascending; the groups stand in the
// order of their least numbers.
func (g groups) members() [][]int {
	place := make([]int, len(g))
	var out [][]int
	for i := range g {
		r := g.root(i)
		if r == i {
			place[i] = len(out)
			out = append(out, nil)
		}
		out[place[r]] = append(out[place[r]], i)
	}
	return out
}
