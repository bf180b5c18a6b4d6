using System.Numerics;
using System.Runtime.Intrinsics;

namespace Spurless.Mixing.Screening;

/// <summary>Goes through the boxes of a tree in which some emitter can reach a power. One instance a thread.</summary>
internal sealed class BoxWalk
{
    private int[] _stack = new int[16 * ScreenTree.Lanes];
    private int _count;

    /// <summary>Begins with a tree.</summary>
    public void Start() => (_stack[0], _count) = (0, 1);

    /// <summary>The next smallest box in which some emitter can reach the power, as the number of its eight emitters; -1 after the
    /// last.</summary>
    /// <param name="tree">The tree.</param>
    /// <param name="sight">From where it is seen.</param>
    /// <param name="floor">The power in milliwatts, of <see cref="ScreenSight.Floor"/>.</param>
    public int Next(ScreenTree tree, in ScreenSight sight, float floor)
    {
        while (_count > 0)
        {
            int n = _stack[--_count];
            if (n < 0)
            {
                return ~n;
            }

            if (_count + ScreenTree.Lanes > _stack.Length)
            {
                Array.Resize(ref _stack, 2 * _stack.Length);
            }

            uint reach = Vector256.GreaterThanOrEqual(sight.MostOfBoxes(tree, n), Vector256.Create(floor)).ExtractMostSignificantBits()
                & tree.BoxesIn(n);
            for (; reach != 0; reach &= reach - 1)
            {
                _stack[_count++] = tree.Below[(n * ScreenTree.Lanes) + BitOperations.TrailingZeroCount(reach)];
            }
        }

        return -1;
    }
}
