using System.Buffers;

namespace Spurless.Signals.Dsp;

/// <summary>
/// Room to work in, given back when done: long arrays made anew for each piece of a recording cost more time than what is done in them.
/// What stands in it at first is not known.
/// </summary>
internal readonly struct Rented : IDisposable
{
    private readonly float[] _array;

    /// <summary>Takes room.</summary>
    /// <param name="length">How many values.</param>
    public Rented(int length)
    {
        _array = ArrayPool<float>.Shared.Rent(length);
        Length = length;
    }

    /// <summary>How many values.</summary>
    public int Length { get; }

    /// <summary>The room.</summary>
    public Span<float> Span => _array.AsSpan(0, Length);

    /// <summary>The room, for what keeps it while it works.</summary>
    public ReadOnlyMemory<float> Memory => _array.AsMemory(0, Length);

    /// <summary>Gives it back.</summary>
    public void Dispose() => ArrayPool<float>.Shared.Return(_array);
}
