using System.Collections.Immutable;
using System.Numerics;

namespace Spurless.Circuits.Touchstone;

/// <summary>Which parameters a Touchstone file holds.</summary>
public enum TouchstoneParameter
{
    /// <summary>Scattering parameters (the default).</summary>
    S,

    /// <summary>Admittances.</summary>
    Y,

    /// <summary>Impedances.</summary>
    Z,

    /// <summary>Hybrid parameters, V1 and I2 from I1 and V2.</summary>
    H,

    /// <summary>Inverse hybrid parameters, I1 and V2 from V1 and I2.</summary>
    G,
}

/// <summary>How a Touchstone file writes a complex number.</summary>
public enum TouchstoneFormat
{
    /// <summary>Magnitude and angle in degrees (the default).</summary>
    MA,

    /// <summary>20 lg of the magnitude and angle in degrees.</summary>
    DB,

    /// <summary>Real and imaginary part.</summary>
    RI,
}

/// <summary>The unit of a Touchstone file's frequencies; the value is the power of ten that makes hertz of it.</summary>
public enum TouchstoneUnit
{
    /// <summary>Hertz.</summary>
    Hz = 0,

    /// <summary>Kilohertz.</summary>
    KHz = 3,

    /// <summary>Megahertz.</summary>
    MHz = 6,

    /// <summary>Gigahertz (the default).</summary>
    GHz = 9,
}

/// <summary>
/// What the option line (<c># GHz S MA R 50</c>) of a Touchstone file says, the format's defaults filled in.
/// Source: Touchstone File Format Specification 2.0 (IBIS Open Forum, 2009), option line.
/// </summary>
/// <param name="Unit">Unit of the frequencies.</param>
/// <param name="Parameter">Kind of parameters.</param>
/// <param name="Format">How complex numbers are written.</param>
/// <param name="Resistances">The values after <c>R</c>, in ohms: one for all ports, or one for each.</param>
public sealed record TouchstoneOptions(
    TouchstoneUnit Unit, TouchstoneParameter Parameter, TouchstoneFormat Format, ImmutableArray<Complex> Resistances)
{
    /// <summary>What holds where the option line says nothing: GHz, S, MA, 50 ohm.</summary>
    public static TouchstoneOptions Default { get; } =
        new(TouchstoneUnit.GHz, TouchstoneParameter.S, TouchstoneFormat.MA, [new Complex(50, 0)]);
}
