using Spurless.Sites.Documents.Receivers;

namespace Spurless.Sites.Receivers;

/// <summary>What does not fit in a receiver's measurements.</summary>
public enum ReceiverWarningKind
{
    /// <summary>Two readings of the noise disagree.</summary>
    NoiseDisagrees,

    /// <summary>Two readings of one intercept disagree.</summary>
    InterceptDisagrees,

    /// <summary>The noise figure comes out below 0 dB, which no receiver has.</summary>
    NoiseFigureBelowZero,

    /// <summary>The tones were as strong as the stage's compression, where the law of small signals does not hold.</summary>
    TonesCompress,

    /// <summary>A product was read so far under the noise that nobody can have read it.</summary>
    ProductUnderNoise,

    /// <summary>The mixture lands on the channel, but outside of the noise bandwidth: it is not read whole.</summary>
    BesideThePassband,

    /// <summary>A response or blocking lies under the sensitivity.</summary>
    UnderSensitivity,

    /// <summary>The front end's sweep does not reach a tone.</summary>
    FrontEndEnds,

    /// <summary>The front end would have to amplify the tones.</summary>
    FrontEndAmplifies,

    /// <summary>A reading against the noise is left out: the noise is not known.</summary>
    NoNoise,

    /// <summary>A mixture at a site is left out: an emitter's level is not known.</summary>
    LevelUnknown,

    /// <summary>A mixture at a site is left out: the study does not come to it.</summary>
    NotPredicted,

    /// <summary>A mixture at a site may be made in an amplifier in front of the receiver.</summary>
    AmplifierInFront,

    /// <summary>So little of a mixture falls into the channel that its share is rough.</summary>
    SmallShare,
}

/// <summary>Something that does not fit; floor 5 makes the sentence.</summary>
/// <param name="Kind">What it is.</param>
public sealed record ReceiverWarning(ReceiverWarningKind Kind)
{
    /// <summary>The reading; null where it is about a figure.</summary>
    public MeasuredEntry? Entry { get; init; }

    /// <summary>The other reading of a disagreement.</summary>
    public MeasuredEntry? Other { get; init; }

    /// <summary>The order, of an intercept; 0 else.</summary>
    public int Order { get; init; }

    /// <summary>What it is about, in dB or dBm: how far apart, how much.</summary>
    public double Value { get; init; }

    /// <summary>What it is held against, in dB or dBm.</summary>
    public double Against { get; init; }

    /// <summary>A frequency, in hertz; 0 where there is none.</summary>
    public long FrequencyHz { get; init; }

    /// <summary>An emitter's or an amplifier's name, or a reason; empty where there is none.</summary>
    public string Name { get; init; } = "";
}

/// <summary>What is still unknown of a receiver, and so which reading would give it.</summary>
public enum ReceiverGap
{
    /// <summary>The noise: a sensitivity.</summary>
    Noise,

    /// <summary>The intercept of order 3: two tones close to the channel.</summary>
    ThirdOrder,

    /// <summary>The intercept of order 3 for close tones: two of them, or the front end's sweep.</summary>
    CloseTones,

    /// <summary>The intercept of order 2: two tones whose sum or difference is the channel.</summary>
    SecondOrder,

    /// <summary>The intercept of order 5: two tones, 3A-2B.</summary>
    FifthOrder,

    /// <summary>What the front end takes from signals off the channel: its sweep, or tones far off.</summary>
    FrontEnd,

    /// <summary>Responses off the channel: image, half of the intermediate frequency.</summary>
    Responses,

    /// <summary>Blocking: a strong signal beside the channel.</summary>
    Blocking,
}
