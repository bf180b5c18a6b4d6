using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using SharpFuzz.Common;

namespace Spurless.Fuzz.Coverage;

/// <summary>
/// What the instrumented code counts: how often each edge between two of its blocks was taken, edges by a hash of 16 bits. An input is
/// new when it takes an edge, or takes it in another order of magnitude (1, 2, 3, 4-7, 8-15, 16-31, 32-127, more), as none before did.
/// </summary>
internal sealed unsafe class TraceMap : IDisposable
{
    private const int Size = 1 << 16;
    private static readonly byte[] Magnitudes = [.. Enumerable.Range(0, 256).Select(static n => (byte)(n switch
    {
        0 => 0,
        1 => 1,
        2 => 2,
        3 => 4,
        < 8 => 8,
        < 16 => 16,
        < 32 => 32,
        < 128 => 64,
        _ => 128,
    }))];

    private readonly byte* _counts = (byte*)NativeMemory.AllocZeroed(Size);
    private readonly byte[] _seen = new byte[Size];

    /// <summary>Gives the instrumented code a place to count in before there is a map.</summary>
    [ModuleInitializer]
    internal static void Begin() => Trace.SharedMem = (byte*)NativeMemory.AllocZeroed(Size);

    /// <summary>Directs the instrumented code to this map.</summary>
    public TraceMap() => Trace.SharedMem = _counts;

    /// <summary>Edges that any input took.</summary>
    public int Edges { get; private set; }

    /// <summary>Forgets what was counted since.</summary>
    public void Clear()
    {
        new Span<byte>(_counts, Size).Clear();
        Trace.PrevLocation = 0;
    }

    /// <summary>Takes over what was counted since the last call of <see cref="Clear"/>.</summary>
    /// <returns>Whether it is new.</returns>
    public bool Take()
    {
        bool any = false;
        ReadOnlySpan<ulong> counts = new(_counts, Size / sizeof(ulong));
        for (int i = 0; i < counts.Length; i++)
        {
            if (counts[i] != 0)
            {
                any |= Take(i * sizeof(ulong));
            }
        }

        return any;
    }

    public void Dispose()
    {
        Begin(); // threads that still run write there
        NativeMemory.Free(_counts);
    }

    private bool Take(int first)
    {
        bool any = false;
        for (int i = first; i < first + sizeof(ulong); i++)
        {
            byte now = (byte)(Magnitudes[_counts[i]] & ~_seen[i]);
            if (now != 0)
            {
                Edges += _seen[i] == 0 ? 1 : 0;
                _seen[i] |= now;
                any = true;
            }
        }

        return any;
    }
}
