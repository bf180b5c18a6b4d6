namespace Spurless.Circuits.Parts;

/// <summary>
/// A two-port network of parts between named nodes and ground. Port 1 is <see cref="PortIn"/> against ground, port 2 <see cref="PortOut"/>
/// against ground.
/// </summary>
public sealed record Circuit
{
    /// <summary>The name of ground among the nodes.</summary>
    public const string Ground = "gnd";

    /// <summary>The circuit's name.</summary>
    public required string Name { get; init; }

    /// <summary>Node of port 1.</summary>
    public required string PortIn { get; init; }

    /// <summary>Node of port 2.</summary>
    public required string PortOut { get; init; }

    /// <summary>Impedance of both ports in ohms, real, above 0.</summary>
    public double ImpedanceOhm { get; init; } = 50;

    /// <summary>The parts in the order of the file.</summary>
    public required IReadOnlyList<Part> Parts { get; init; }

    /// <summary>Leakage round the circuit in dB, which caps its rejection; null where not stated.</summary>
    public double? LeakageDb { get; init; }
}
