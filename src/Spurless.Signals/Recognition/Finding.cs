namespace Spurless.Signals.Recognition;

/// <summary>
/// A kind of transmission with the figures by which it was recognised. Never what was said, and to whom: only counts and timing.
/// </summary>
public sealed record Finding
{
    /// <summary>The kind.</summary>
    public required SignalKind Kind { get; init; }

    /// <summary>Where the signal begins, in seconds from the recording's start.</summary>
    public required double StartS { get; init; }

    /// <summary>Where it ends.</summary>
    public required double EndS { get; init; }

    /// <summary>How likely the kind is right, 0 to 1: by the share of right claims on made signals with this much evidence.</summary>
    public double Confidence { get; init; } = 0.5;

    /// <summary>Symbols a second.</summary>
    public double? SymbolRateBd { get; init; }

    /// <summary>Measured frequency of the tone, or spacing of the lines, in hertz.</summary>
    public double? ToneHz { get; init; }

    /// <summary>A squelch tone's or code's name, a pair of tones, or Morse text.</summary>
    public string? Code { get; init; }

    /// <summary>Codewords or frames that carry a check.</summary>
    public int? UnitsChecked { get; init; }

    /// <summary>Of these, how many were right as received.</summary>
    public int? UnitsGood { get; init; }

    /// <summary>Whether a positive sample is 0 (DCS) or 1 (paging).</summary>
    public bool? Inverted { get; init; }

    /// <summary>What else was measured.</summary>
    public Evidence Evidence { get; init; } = new();

    /// <summary>What it looks like: an eye or a tone over time; null where its spectrum says more, and of dialling tones.</summary>
    public Trace? Trace { get; init; }

    /// <summary>How long it lasts, in seconds.</summary>
    public double LengthS => EndS - StartS;
}

/// <summary>Figures beside a finding; what was not measured is null.</summary>
public sealed record Evidence
{
    /// <summary>Sync words found.</summary>
    public int? SyncWords { get; init; }

    /// <summary>Codewords wrong as received that their check bits could right.</summary>
    public int? Corrected { get; init; }

    /// <summary>Flags found.</summary>
    public int? Flags { get; init; }

    /// <summary>The same DCS stream with the other polarity is this code.</summary>
    public string? OtherPolarity { get; init; }

    /// <summary>The open standard whose sync words were found.</summary>
    public string? Standard { get; init; }

    /// <summary>Peak deviation of the carrier, in hertz (IQ).</summary>
    public double? DeviationHz { get; init; }

    /// <summary>Deviation of one squelch tone or code, in hertz (IQ).</summary>
    public double? ToneDeviationHz { get; init; }

    /// <summary>Width that holds 99 % of the power, in hertz.</summary>
    public double? BandwidthHz { get; init; }

    /// <summary>Signal to noise, in dB: of audio in 300 to 3,400 Hz, of IQ in its own width.</summary>
    public double? SnrDb { get; init; }

    /// <summary>Share of the time with a voiced sound.</summary>
    public double? VoicedShare { get; init; }

    /// <summary>Lowest usual pitch, in hertz.</summary>
    public double? PitchLowHz { get; init; }

    /// <summary>Highest usual pitch, in hertz.</summary>
    public double? PitchHighHz { get; init; }

    /// <summary>Lines found.</summary>
    public int? Lines { get; init; }

    /// <summary>How far tones or lines drifted, in hertz.</summary>
    public double? DriftHz { get; init; }

    /// <summary>Mains frequency by which impulses are gated, in hertz.</summary>
    public double? GatedByHz { get; init; }

    /// <summary>Impulses a second.</summary>
    public double? ImpulsesPerS { get; init; }

    /// <summary>How much quieter than the open receiver, in dB.</summary>
    public double? QuietingDb { get; init; }

    /// <summary>Morse speed, in words of five letters a minute.</summary>
    public double? WordsPerMinute { get; init; }

    /// <summary>How the carrier is modulated (IQ).</summary>
    public Modulation? Modulation { get; init; }

    /// <summary>Strongest lines of something unknown, in hertz.</summary>
    public IReadOnlyList<double> TonesHz { get; init; } = [];
}

/// <summary>How a carrier is modulated.</summary>
public enum Modulation
{
    /// <summary>In frequency.</summary>
    Fm,

    /// <summary>In amplitude, with its carrier.</summary>
    Am,

    /// <summary>One side band without a carrier.</summary>
    Ssb,

    /// <summary>Switched on and off.</summary>
    Keyed,
}
