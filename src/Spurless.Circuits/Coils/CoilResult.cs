namespace Spurless.Circuits.Coils;

/// <summary>What a coil is worth.</summary>
public sealed record CoilResult
{
    /// <summary>The coil.</summary>
    public required CoilGeometry Geometry { get; init; }

    /// <summary>Inductance of the winding in henries, without leads: current sheet with round-wire corrections.</summary>
    public required double InductanceH { get; init; }

    /// <summary>Inductance of the equivalent current sheet in henries.</summary>
    public required double SheetInductanceH { get; init; }

    /// <summary>Wheeler's formula of 1928 in henries, as a cross-check; null outside the range in which it states 1 % (length over 0.4 diameters).</summary>
    public required double? WheelerInductanceH { get; init; }

    /// <summary>What both leads add, in henries; 0 without leads.</summary>
    public required double LeadInductanceH { get; init; }

    /// <summary>Frequency in hertz for which <see cref="Q"/> and <see cref="ResistanceOhm"/> hold; null where none was asked for.</summary>
    public required double? FrequencyHz { get; init; }

    /// <summary>Unloaded Q of winding and leads; null without a frequency. An upper bound: dielectric, shield and joints are not in it.</summary>
    public required double? Q { get; init; }

    /// <summary>Series resistance of winding and leads in ohms; null without a frequency.</summary>
    public required double? ResistanceOhm { get; init; }

    /// <summary>Factor by which the neighbouring turns raise the wire's resistance.</summary>
    public required double ProximityFactor { get; init; }

    /// <summary>Self-capacitance in farads, one end earthed.</summary>
    public required double SelfCapacitanceF { get; init; }

    /// <summary>Frequency in hertz at which it resonates by itself, leads included.</summary>
    public required double SelfResonanceHz { get; init; }

    /// <summary>Length of wire in metres, leads included.</summary>
    public required double WireLengthM { get; init; }

    /// <summary>Where a formula leaves its range, and what matters besides, each one sentence without a full stop.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}
