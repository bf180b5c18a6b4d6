using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;

namespace Spurless.Circuits.Requirements;

/// <summary>What a filter must do: a requirement file as read and checked.</summary>
public sealed record Requirement
{
    /// <summary>The file's name as the user gave it.</summary>
    public required string File { get; init; }

    /// <summary>What the requirement is called.</summary>
    public required string Name { get; init; }

    /// <summary>What must pass.</summary>
    public required PassBand Pass { get; init; }

    /// <summary>What must be kept out, in the file's order; none lies within the pass band.</summary>
    public required IReadOnlyList<RejectBand> Reject { get; init; }

    /// <summary>Port impedance; 50 ohm where not given.</summary>
    public required Resistance Impedance { get; init; }

    /// <summary>Which parts may be used.</summary>
    public required AvailableParts Parts { get; init; }

    /// <summary>Power that the filter must carry; null where it only receives.</summary>
    public Power? Transmit { get; init; }

    /// <summary>Capacitance of open bypass contacts round the filter, above 0; null where it is not written here.</summary>
    public Capacitance? BypassOpen { get; init; }

    /// <summary>The file of the bypass relay whose contacts go round the filter; null where none is named.</summary>
    public BypassReference? BypassFile { get; init; }
}

/// <summary>A bypass relay's file that a requirement names.</summary>
/// <param name="Path">As written: relative to the requirement, or absolute.</param>
/// <param name="At">Where it is named.</param>
public sealed record BypassReference(string Path, YamlPosition At);

/// <summary>A band that must pass.</summary>
/// <param name="From">Lower edge, above 0.</param>
/// <param name="To">Upper edge, above <paramref name="From"/>.</param>
/// <param name="Loss">Most insertion loss allowed anywhere in it, above 0.</param>
/// <param name="ReturnLoss">Least return loss anywhere in it, above 0; null for none asked.</param>
public sealed record PassBand(Frequency From, Frequency To, Decibels Loss, Decibels? ReturnLoss);

/// <summary>A frequency or band that must be kept out.</summary>
/// <param name="From">Lower edge, above 0.</param>
/// <param name="To">Upper edge; equal to <paramref name="From"/> for a single frequency.</param>
/// <param name="By">Least insertion loss there, above 0.</param>
/// <param name="At">Where the line stands in the file.</param>
public sealed record RejectBand(Frequency From, Frequency To, Decibels By, YamlPosition At);

/// <summary>Series of preferred values (IEC 60063), by the number of values in a decade.</summary>
public enum PreferredSeries
{
    /// <summary>Three values a decade.</summary>
    E3 = 3,

    /// <summary>Six values a decade, usual within 20 %.</summary>
    E6 = 6,

    /// <summary>Twelve values a decade, usual within 10 %.</summary>
    E12 = 12,

    /// <summary>Twenty-four values a decade, usual within 5 %.</summary>
    E24 = 24,

    /// <summary>Forty-eight values a decade, usual within 2 %.</summary>
    E48 = 48,

    /// <summary>Ninety-six values a decade, usual within 1 %.</summary>
    E96 = 96,

    /// <summary>A hundred and ninety-two values a decade, usual within 0.5 % and less.</summary>
    E192 = 192,
}

/// <summary>Parts that may be used. What is null was not limited.</summary>
/// <param name="InductorQ">Quality of an inductor at a frequency; null for lossless.</param>
/// <param name="CapacitorQ">Quality of a capacitor at a frequency; null for lossless.</param>
/// <param name="Inductors">Smallest and greatest inductance.</param>
/// <param name="Capacitors">Smallest and greatest capacitance.</param>
/// <param name="Series">Series of preferred values for capacitors.</param>
public sealed record AvailableParts(
    QualityAt? InductorQ,
    QualityAt? CapacitorQ,
    (Inductance Least, Inductance Greatest)? Inductors,
    (Capacitance Least, Capacitance Greatest)? Capacitors,
    PreferredSeries? Series);
