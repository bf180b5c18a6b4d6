namespace Spurless.Fit;

/// <summary>What of an instrument may be off.</summary>
public enum InstrumentFigure
{
    /// <summary>The gain of an S-parameter.</summary>
    Gain,

    /// <summary>The reference plane of a port.</summary>
    ReferencePlane,

    /// <summary>Residual directivity at a port.</summary>
    Directivity,

    /// <summary>Residual source match of a port.</summary>
    SourceMatch,

    /// <summary>Residual load match of a port.</summary>
    LoadMatch,
}

/// <summary>Which error of an instrument: of one S-parameter, or of one port.</summary>
/// <param name="Figure">What.</param>
/// <param name="Parameter">The S-parameter of a gain; else null.</param>
/// <param name="Port">The port, 1 or 2; of a gain 0.</param>
public readonly record struct InstrumentError(InstrumentFigure Figure, SweepParameter? Parameter, int Port);

/// <summary>An error of the instrument that would have to be larger than its calibration lets expect.</summary>
/// <param name="Error">Which.</param>
/// <param name="Sigmas">How large, in sigmas of what the calibration lets expect.</param>
public readonly record struct InstrumentAlarm(InstrumentError Error, double Sigmas);

/// <summary>More is left over with a shape of its own than an instrument's errors are large before any was taken off.</summary>
/// <param name="Parameter">The S-parameter in which most is left.</param>
/// <param name="LeftOverDb">How much, in dB over full scale.</param>
/// <param name="InstrumentDb">The residual directivity that the calibration lets expect, in dB.</param>
public readonly record struct LeftOverAlarm(SweepParameter Parameter, double LeftOverDb, double InstrumentDb);
