namespace Spurless.Circuits.Stress;

/// <summary>What one part bears.</summary>
/// <param name="Part">The part's name.</param>
/// <param name="PeakVoltageV">Peak voltage across it in volts; on a line or stub the greatest along it, of a block or transformer the
/// greater of its ports.</param>
/// <param name="RmsCurrentA">Rms current in amperes: through the winding of an inductor, the greatest along a line or stub.</param>
/// <param name="DissipationW">Heat in watts.</param>
/// <param name="LimitPowerW">Transmitter power in watts at which it reaches its first limit; null where it has none.</param>
/// <param name="Limit">That limit; null where it has none.</param>
/// <param name="LimitAssumed">Whether the limit is a typical one, because the part states no rating.</param>
public sealed record PartStress(
    string Part, double PeakVoltageV, double RmsCurrentA, double DissipationW, double? LimitPowerW, StressLimit? Limit, bool LimitAssumed)
{
    /// <summary>Whether the limit is passed at the power asked about.</summary>
    public bool Exceeded { get; init; }
}

/// <summary>What a circuit does to a transmitter's power, and that to its parts.</summary>
public sealed record StressResult
{
    /// <summary>The question.</summary>
    public required StressRequest Request { get; init; }

    /// <summary>Power available from the transmitter in watts.</summary>
    public required double AvailableW { get; init; }

    /// <summary>Power into the load in watts.</summary>
    public required double DeliveredW { get; init; }

    /// <summary>Power that returns to the transmitter in watts.</summary>
    public required double ReflectedW { get; init; }

    /// <summary>Heat in all parts in watts. Delivered, reflected and dissipated power add up to the available one.</summary>
    public required double DissipatedW { get; init; }

    /// <summary>
    /// With a standing wave ratio each part stands with its own worst phase, and the powers above belong to the phase of the greatest heat:
    /// then the parts' heat adds to more than <see cref="DissipatedW"/>.
    /// </summary>
    public required bool WorstPhasePartByPart { get; init; }

    /// <summary>Available less delivered, reflected and dissipated power, over the available one: the error of the computation.</summary>
    public required double BalanceError { get; init; }

    /// <summary>The parts in the order of the circuit, couplings left out.</summary>
    public required IReadOnlyList<PartStress> Parts { get; init; }

    /// <summary>
    /// Whether every part that has a limit keeps within it; says nothing where none has one, see <see cref="GivesFirst"/>.
    /// </summary>
    public required bool MayTransmit { get; init; }

    /// <summary>Power in watts at which the first part reaches its limit; null where no part has one.</summary>
    public required double? SafePowerW { get; init; }

    /// <summary>The part that reaches its limit at the least power; null where no part has a limit.</summary>
    public required PartStress? GivesFirst { get; init; }

    /// <summary>What was taken for want of a figure; may be empty.</summary>
    public required IReadOnlyList<StressAssumption> Assumptions { get; init; }

    /// <summary>Whether there are resistors or blocks in the circuit, which ask for a caution of their own.</summary>
    public required bool HasResistors { get; init; }

    /// <summary>Whether there are capacitors in it.</summary>
    public required bool HasCapacitors { get; init; }
}
