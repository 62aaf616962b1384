package logic

// Nodes returns the number of AND gates of a base.
func Nodes(base *Base) int { return len(base.nodes) }
