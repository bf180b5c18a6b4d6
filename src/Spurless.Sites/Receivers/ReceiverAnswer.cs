using Spurless.Mixing.Measurements;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Receivers;

/// <summary>What a receiver's own measurements say. What is null or empty was not measured.</summary>
public sealed record ReceiverAnswer
{
    /// <summary>What was asked.</summary>
    public required ReceiverQuestion Question { get; init; }

    /// <summary>Level at the input for 12 dB SINAD in dBm; worked out where only a noise figure was read.</summary>
    public required MeasuredFigure? Sensitivity { get; init; }

    /// <summary>Whether <see cref="Sensitivity"/> was read.</summary>
    public required bool SensitivityRead { get; init; }

    /// <summary>Noise at the input in the noise bandwidth, in dBm.</summary>
    public required MeasuredFigure? Noise { get; init; }

    /// <summary>Noise figure in dB.</summary>
    public required MeasuredFigure? NoiseFigure { get; init; }

    /// <summary>Intercepts by order; of one order the one for close tones first.</summary>
    public required IReadOnlyList<InterceptFinding> Intercepts { get; init; }

    /// <summary>What the front end takes from pairs of tones, found from an intercept for close tones.</summary>
    public required IReadOnlyList<TonesLoss> Losses { get; init; }

    /// <summary>Responses off the channel, in the file's order.</summary>
    public required IReadOnlyList<OffChannelFinding> Responses { get; init; }

    /// <summary>Blocking, in the file's order.</summary>
    public required IReadOnlyList<OffChannelFinding> Blockings { get; init; }

    /// <summary>The blocking that is reached first; null where none is known.</summary>
    public OffChannelFinding? Blocking => Blockings.Where(static b => b.Ratio is not null).MinBy(static b => b.Ratio!.Value);

    /// <summary>What does not fit.</summary>
    public required IReadOnlyList<ReceiverWarning> Warnings { get; init; }

    /// <summary>What is still unknown.</summary>
    public required IReadOnlyList<ReceiverGap> Unknown { get; init; }

    /// <summary>The measurements.</summary>
    public ReceiverMeasurements Document => Question.Measurements.Document;

    /// <summary>Every file that was read.</summary>
    public IReadOnlyList<InputFile> Inputs => Question.Measurements.Inputs;
}

/// <summary>An intercept of one order.</summary>
/// <param name="Order">2 to 9.</param>
/// <param name="Figure">The intercept in dBm at the receiver's input.</param>
/// <param name="From">The readings it comes from, one or more.</param>
/// <param name="CloseTones">
/// Whether it is that for tones close to the channel; else it holds for tones at the readings' frequencies, front end included.
/// </param>
public sealed record InterceptFinding(int Order, MeasuredFigure Figure, IReadOnlyList<InterceptReading> From, bool CloseTones)
{
    /// <summary>Whether a mixture at a site has part in it.</summary>
    public bool OnTheAir => From.Any(static r => r.Entry is SiteProductReading);
}

/// <summary>What the front end takes from the tones of a mixture.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="Together"><c>sum |k_i| L_i</c> in dB, over the loss on the channel.</param>
public sealed record TonesLoss(InterceptReading Reading, MeasuredFigure Together)
{
    /// <summary>The mean of the tones, each counted as often as it is taken, in dB.</summary>
    public MeasuredFigure Mean => Together.Times(1.0 / Reading.Order);
}

/// <summary>A signal off the channel against the sensitivity.</summary>
/// <param name="Entry">The entry of the file.</param>
/// <param name="FrequencyHz">Where the signal stood, in hertz.</param>
/// <param name="LevelDbm">Its level at the input, in dBm.</param>
/// <param name="Ratio">Its level over the sensitivity, in dB; null where no sensitivity is known.</param>
public sealed record OffChannelFinding(MeasuredEntry Entry, long FrequencyHz, double LevelDbm, MeasuredFigure? Ratio);
