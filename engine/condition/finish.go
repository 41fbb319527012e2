package condition

// finish keeps the nodes that are in use: folding leaves others behind.
func (c *compiler) finish(root int32) *Program {
	live := make([]bool, len(c.nodes))
	var mark func(i int32)
	mark = func(i int32) {
		if live[i] {
			return
		}
		live[i] = true
		n := &c.nodes[i]
		a, b := n.op.kids()
		if a {
			mark(n.a)
		}
		if b {
			mark(n.b)
		}
		if n.op == opCount {
			for _, kid := range c.list[n.a : n.a+n.b] {
				mark(kid)
			}
		}
	}
	mark(root)
	p, to := &Program{scope: c.scope}, make([]int32, len(c.nodes))
	for i, n := range c.nodes {
		if !live[i] {
			continue
		}
		a, b := n.op.kids()
		if a {
			n.a = to[n.a]
		}
		if b {
			n.b = to[n.b]
		}
		if n.op == opCount {
			from := int32(len(p.list))
			for _, kid := range c.list[n.a : n.a+n.b] {
				p.list = append(p.list, to[kid])
			}
			n.a = from
		}
		to[i] = int32(len(p.nodes))
		p.nodes = append(p.nodes, n)
	}
	p.root = to[root]
	return p
}
