
namespace Spurless.Circuits.Coils;

/// <summary>The shape of a resonator's shield.</summary>
public enum ShieldShape
{
    /// <summary>A square box.</summary>
    Square,

    /// <summary>A tube.</summary>
    Round,
}

/// <summary>
/// A helical quarter-wave resonator in a copper shield.
/// </summary>
/// <remarks>
/// Design formulas of W. W. Macalpine and R. O. Schildknecht, 'Coaxial Resonators with Helical Inner Conductor', Proc. IRE 47, 1959; all
/// constants from memory. With S the side in inches, f in MHz: <c>Q = 60 S sqrt f</c>, <c>N = 1600/(S f)</c>, <c>Z0 = 81500/(S f)</c>, coil
/// diameter 0.66 S, coil length 1.5 coil diameters, box height 1.6 S; round with diameter D: 50 D sqrt f, 1900/(D f), 98000/(D f), 0.55 D,
/// 1.5, 1.325 D. About 10 % (common practice): the last turn or a screw tunes it. Wire: 0.4 to 0.6 of the pitch.
/// </remarks>
public sealed record HelicalResonator
{
    private const double Inch = 0.0254;

    private HelicalResonator()
    {
    }

    /// <summary>Unloaded Q.</summary>
    public required double Q { get; init; }

    /// <summary>Turns of the helix.</summary>
    public required double Turns { get; init; }

    /// <summary>Characteristic impedance of the helix in its shield, in ohms.</summary>
    public required double ImpedanceOhm { get; init; }

    /// <summary>Mean diameter of the helix in metres.</summary>
    public required double CoilDiameterM { get; init; }

    /// <summary>Length of the helix in metres.</summary>
    public required double CoilLengthM { get; init; }

    /// <summary>Inner height of the shield in metres.</summary>
    public required double ShieldHeightM { get; init; }

    /// <summary>Diameter of the wire in metres: half the pitch.</summary>
    public required double WireM { get; init; }

    /// <summary>Where the formulas leave their range.</summary>
    public required IReadOnlyList<CoilWarning> Warnings { get; init; }

    /// <summary>The resonator for a frequency in a shield.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <param name="sizeM">Inner side of the square, or inner diameter, in metres, above 0.</param>
    /// <param name="shape">Square or round.</param>
    /// <returns>At 146 MHz in a square of 1.5 inches: Q 1087, 7.31 turns, 372 ohm.</returns>
    public static HelicalResonator For(double frequencyHz, double sizeM, ShieldShape shape)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(frequencyHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sizeM);
        double f = frequencyHz / 1e6;
        double s = sizeM / Inch;
        bool square = shape == ShieldShape.Square;
        double turns = (square ? 1600 : 1900) / (s * f);
        double coil = (square ? 0.66 : 0.55) * s;
        double length = 1.5 * coil;
        List<CoilWarning> warnings = [];
        if (turns < 3)
        {
            warnings.Add(new CoilWarning.NoHelix(turns));
        }

        double pitch = length / turns * Inch;
        double skin = Conductor.Copper.SkinDepthM(frequencyHz);
        if (pitch < 10 * skin)
        {
            warnings.Add(new CoilWarning.ThinHelix());
        }

        if (f is < 20 or > 1500)
        {
            warnings.Add(new CoilWarning.UnusualForHelix());
        }

        return new HelicalResonator
        {
            Q = (square ? 60 : 50) * s * Math.Sqrt(f),
            Turns = turns,
            ImpedanceOhm = (square ? 81500 : 98000) / (s * f),
            CoilDiameterM = coil * Inch,
            CoilLengthM = length * Inch,
            ShieldHeightM = (square ? 1.6 : 1.325) * s * Inch,
            WireM = pitch / 2,
            Warnings = warnings,
        };
    }
}
