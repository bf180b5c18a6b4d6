using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Receivers;

/// <summary>Something that was measured at a receiver.</summary>
public abstract record MeasuredEntry
{
    /// <summary>One sigma of a reading where none is written, in dB (common practice for a bench generator and an ear).</summary>
    public const double UsualSigmaDb = 1;

    /// <summary>One sigma of each reading of the entry, above 0; null where not written.</summary>
    public Decibels? PlusMinus { get; init; }

    /// <summary>One sigma in dB, as written or as usual.</summary>
    public double SigmaDb => PlusMinus?.Value ?? UsualSigmaDb;

    /// <summary>Where it stands in the file.</summary>
    public required EntrySource Source { get; init; }
}

/// <summary>The sensitivity or the noise figure.</summary>
/// <param name="Level">Level at the input for 12 dB SINAD; null with a noise figure.</param>
/// <param name="NoiseFigure">The noise figure; null with a level.</param>
public sealed record SensitivityReading(Level? Level, NoiseFigure? NoiseFigure) : MeasuredEntry;

/// <summary>Two tones whose mixture on the channel was read.</summary>
/// <param name="Order">Order of the mixture, 2 to 9.</param>
/// <param name="First">The one tone.</param>
/// <param name="Second">The other tone.</param>
/// <param name="FirstLevel">Level of the first tone at the input.</param>
/// <param name="SecondLevel">Level of the second; null where both were set as one.</param>
/// <param name="Product">
/// Level on the channel that reads the same; null where the tones were raised until the mixture equals the noise.
/// </param>
public sealed record TwoToneReading(
    int Order, Frequency First, Frequency Second, Level FirstLevel, Level? SecondLevel, Level? Product) : MeasuredEntry;

/// <summary>A signal off the channel that is heard.</summary>
/// <param name="At">Its frequency.</param>
/// <param name="Level">The level there that gives 12 dB SINAD.</param>
public sealed record ResponseReading(Frequency At, Level Level) : MeasuredEntry;

/// <summary>A strong signal that makes the receiver less sensitive.</summary>
/// <param name="At">Its frequency.</param>
/// <param name="Level">The level that takes 3 dB of sensitivity.</param>
public sealed record BlockingReading(Frequency At, Level Level) : MeasuredEntry;

/// <summary>What stands before the first active stage, measured as a two-port.</summary>
/// <param name="Sweep">Its sweep.</param>
public sealed record FrontEndReading(FileReference Sweep) : MeasuredEntry;

/// <summary>An identified mixture that was read at a site.</summary>
/// <param name="Site">The site file.</param>
/// <param name="Receiver">Name of the receiver there.</param>
/// <param name="Terms">Names of emitters with their coefficients, none 0.</param>
/// <param name="OverNoise">What was read over noise, the noise in it.</param>
public sealed record SiteProductReading(
    FileReference Site, string Receiver, IReadOnlyList<Named<int>> Terms, Decibels OverNoise) : MeasuredEntry;
