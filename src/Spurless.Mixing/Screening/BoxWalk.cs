namespace Spurless.Mixing.Screening;

/// <summary>Goes through the boxes of a tree in which some emitter can reach a power. One instance a thread.</summary>
internal sealed class BoxWalk
{
    private readonly List<int> _stack = [];

    /// <summary>Begins with a tree.</summary>
    /// <param name="tree">The tree.</param>
    /// <param name="sight">From where it is seen.</param>
    /// <param name="floor">The power in milliwatts.</param>
    public void Start(ScreenTree tree, in ScreenSight sight, double floor)
    {
        _stack.Clear();
        if (sight.Most(tree.Nodes[0], tree.NearSquared) >= floor)
        {
            _stack.Add(0);
        }
    }

    /// <summary>The next box without halves in which some emitter can reach the power; -1 after the last.</summary>
    public int Next(ScreenTree tree, in ScreenSight sight, double floor)
    {
        while (_stack.Count > 0)
        {
            int n = _stack[^1];
            _stack.RemoveAt(_stack.Count - 1);
            int half = tree.Nodes[n].Half;
            if (half < 0)
            {
                return n;
            }

            for (int side = 1; side >= 0; side--)
            {
                if (sight.Most(tree.Nodes[half + side], tree.NearSquared) >= floor)
                {
                    _stack.Add(half + side);
                }
            }
        }

        return -1;
    }
}
