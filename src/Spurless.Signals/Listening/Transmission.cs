using Spurless.Signals.Recognition;

namespace Spurless.Signals.Listening;

/// <summary>
/// One unbroken stretch of one carrier (in audio: of anything but the receiver's own noise or silence); pauses under 1.5 s do not end it.
/// </summary>
public sealed record Transmission
{
    /// <summary>When it begins, in seconds from the recording's start.</summary>
    public required double StartS { get; init; }

    /// <summary>When it ends.</summary>
    public required double EndS { get; init; }

    /// <summary>Its carrier or the middle of its power, in hertz; null in audio.</summary>
    public double? CentreHz { get; init; }

    /// <summary>The width that holds 99 % of its power, in hertz; null in audio.</summary>
    public double? WidthHz { get; init; }

    /// <summary>Its mean power while on, in dB of full scale.</summary>
    public double? LevelDb { get; init; }

    /// <summary>Signal to noise, in dB: of audio in 300 to 3,400 Hz, of IQ in its own width.</summary>
    public double? SnrDb { get; init; }

    /// <summary>How the carrier is modulated; null in audio.</summary>
    public Modulation? Modulation { get; init; }

    /// <summary>
    /// Peak deviation of the carrier (that 99 % of the time stays under), in hertz; null in audio and without frequency modulation.
    /// </summary>
    public double? DeviationHz { get; init; }

    /// <summary>What is on it together, each kind once, the surest first.</summary>
    public required IReadOnlyList<Finding> Kinds { get; init; }
}

/// <summary>What was heard on a recording.</summary>
/// <param name="DurationS">From its first sample to behind its last, in seconds.</param>
/// <param name="Start">When its first sample was, where the recording says so.</param>
/// <param name="IsBand">Whether it is a band (IQ) rather than audio.</param>
/// <param name="LowHz">Lower edge of what was recorded: of a band absolute, of audio 0.</param>
/// <param name="HighHz">Upper edge.</param>
/// <param name="Transmissions">In order of their begin.</param>
/// <param name="Picture">How strong what was when.</param>
public sealed record Heard(
    double DurationS, DateTimeOffset? Start, bool IsBand, double LowHz, double HighHz, IReadOnlyList<Transmission> Transmissions,
        Spectrogram? Picture)
{
    /// <summary>
    /// The stretches of time that were recorded, from and to in seconds from the recording's start, in order: between them nothing is
    /// known.
    /// </summary>
    public IReadOnlyList<(double FromS, double ToS)> Recorded { get; init; } = [(0, DurationS)];
}

/// <summary>How far a listening is.</summary>
/// <param name="DoneS">Seconds of the recording done.</param>
/// <param name="OfS">Seconds there are.</param>
public readonly record struct ListenProgress(double DoneS, double OfS);
