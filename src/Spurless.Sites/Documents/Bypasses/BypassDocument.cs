using Spurless.Circuits.Relays;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Bypasses;

/// <summary>A relay that the radio frequency switches past a receive filter (<c>*.bypass.yaml</c>).</summary>
public sealed record BypassDocument
{
    /// <summary>The file's name as the user gave it.</summary>
    public required string File { get; init; }

    /// <summary>What it is, in the user's words.</summary>
    public required string Name { get; init; }

    /// <summary>Impedance of the line in ohms, above 0.</summary>
    public required double ImpedanceOhm { get; init; }

    /// <summary>Frequency transmitted on, above 0.</summary>
    public required Frequency Frequency { get; init; }

    /// <summary>Detector, driver and coil.</summary>
    public required RelayCircuit Circuit { get; init; }

    /// <summary>Loss of the closed contacts in dB, at least 0.</summary>
    public required double ContactLossDb { get; init; }

    /// <summary>Capacitance of the open contacts in farads: from port to port of the filter, and of each while it hangs free.</summary>
    public required double ContactOpenF { get; init; }

    /// <summary>The filter's circuit or sweep; null where none is named.</summary>
    public FileReference? Filter { get; init; }

    /// <summary>The site whose signals come down the line; null where none is named.</summary>
    public FileReference? Site { get; init; }

    /// <summary>Power of the transmitter in watts, above 0.</summary>
    public required double PowerW { get; init; }

    /// <summary>Standing wave ratio on the line, at least 1; null where not written, and then it counts as matched.</summary>
    public double? StandingWaveRatio { get; init; }

    /// <summary>Magnitude of the reflection on the line, 0 to below 1.</summary>
    public double Reflection => StandingWaveRatio is { } ratio ? (ratio - 1) / (ratio + 1) : 0;

    /// <summary>Where everything stands in the file.</summary>
    public required EntrySource Source { get; init; }
}
