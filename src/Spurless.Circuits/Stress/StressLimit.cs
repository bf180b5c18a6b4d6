namespace Spurless.Circuits.Stress;

/// <summary>What of a part is limited.</summary>
public enum StressQuantity
{
    /// <summary>Peak voltage, in volts.</summary>
    PeakVoltage,

    /// <summary>Rms current, in amperes.</summary>
    Current,

    /// <summary>Heat, in watts.</summary>
    Heat,
}

/// <summary>A limit of a part.</summary>
/// <param name="Quantity">Of what.</param>
/// <param name="Value">Its value in volts, amperes or watts.</param>
public readonly record struct StressLimit(StressQuantity Quantity, double Value);
