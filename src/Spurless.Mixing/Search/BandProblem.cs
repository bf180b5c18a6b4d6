namespace Spurless.Mixing.Search;

/// <summary>
/// One receiver on every channel of a band, one after the other, with the emitter that moves along with it: what to search for all
/// channels at once.
/// </summary>
/// <remarks>
/// Found is for every channel j what <see cref="Search"/> finds with its one receiver at <c>f_r + j StepHz</c> and its moving emitter at
/// <c>f_m + j MovingStepHz</c>, everything else as it stands: a bound of every level over the channels, where levels change with the
/// channel, and the least floor.
/// </remarks>
public sealed record BandProblem
{
    /// <summary>The search on channel 0: all emitters, and the receiver alone.</summary>
    public required SearchProblem Search { get; init; }

    /// <summary>Number of channels, at least 1.</summary>
    public required int Channels { get; init; }

    /// <summary>From one channel to the next in hertz; 0 for a receiver that stays where it is.</summary>
    public required long StepHz { get; init; }

    /// <summary>Index of the emitter that moves; null for none.</summary>
    public int? Moving { get; init; }

    /// <summary>By how much that emitter moves from one channel to the next, in hertz.</summary>
    public long MovingStepHz { get; init; }

    /// <summary>Whether only products in which the moving emitter takes part are wanted.</summary>
    public bool OnlyWithMoving { get; init; }

    internal SearchReceiver Receiver => Search.Receivers[0];

    /// <summary>The receiver's frequency on a channel, in hertz.</summary>
    internal long ReceiverHz(int channel) => Receiver.FrequencyHz + (channel * StepHz);

    /// <summary>The moving emitter's frequency on a channel, in hertz.</summary>
    internal long MovingHz(int channel) => Search.Emitters[Moving!.Value].FrequencyHz + (channel * MovingStepHz);

    /// <summary>Refuses what the search cannot take: the caller's bug, not the user's.</summary>
    /// <exception cref="ArgumentException">Something is out of range; the message says what.</exception>
    public void Validate()
    {
        Search.Validate();
        int last = Channels - 1;
        bool inRange = Channels >= 1 && Search.Receivers.Length == 1 && InRange(ReceiverHz(last))
            && (Moving is not { } m || (m >= 0 && m < Search.Emitters.Length && InRange(MovingHz(last))));
        if (!inRange)
        {
            throw new ArgumentException("Band problem: needs one receiver, a channel or more, and frequencies in range on each of them.");
        }
    }

    private static bool InRange(long hertz) => hertz is > 0 and <= SearchProblem.MaxFrequencyHz;
}

/// <summary>Takes products of a band as they are found, one at a time, in no particular order.</summary>
public interface IBandSink
{
    /// <summary>Takes a product.</summary>
    /// <param name="product">The product; its receiver is 0.</param>
    /// <param name="from">First channel on which it can hit.</param>
    /// <param name="after">One after the last such channel.</param>
    /// <returns>False to stop the search.</returns>
    bool Add(in ProductRecord product, int from, int after);
}
