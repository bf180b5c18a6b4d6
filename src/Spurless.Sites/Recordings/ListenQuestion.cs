using Spurless.Signals.Recordings;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Recordings;

/// <summary>What to listen to.</summary>
public sealed record ListenQuestion
{
    /// <summary>The recording: a WAV, or a SigMF recording by either of its files.</summary>
    public required string Path { get; init; }

    /// <summary>
    /// A WAV that is read in place of <see cref="Path"/>, which then is its name; it must be able to seek. Null for none.
    /// </summary>
    public Stream? Input { get; init; }

    /// <summary>
    /// The frequency in the middle of the band, in hertz: makes a WAV with two channels a band, and wins over what a SigMF file says.
    /// </summary>
    public double? CentreHz { get; init; }

    /// <summary>Which channel of a WAV is the audio.</summary>
    public WavUse Channel { get; init; } = WavUse.Audio;

    /// <summary>The site whose mixtures what was heard is held against; null for none.</summary>
    public LoadedSite? Site { get; init; }

    /// <summary>Name of the site's receiver on whose channel it was heard; null for the first.</summary>
    public string? Receiver { get; init; }
}
