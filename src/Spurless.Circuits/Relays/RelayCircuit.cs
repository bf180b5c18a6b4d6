using System.Collections.Immutable;

namespace Spurless.Circuits.Relays;

/// <summary>A transistor between the detector and the coil.</summary>
/// <param name="BaseOhm">Resistor in front of its base in ohms, above 0.</param>
/// <param name="Gain">Collector current over base current, above 0.</param>
/// <param name="BaseEmitterV">Voltage from base to emitter while it conducts, in volts, at least 0.</param>
public sealed record DriverStage(double BaseOhm, double Gain, double BaseEmitterV);

/// <summary>A relay's coil and the times of its contacts.</summary>
/// <param name="CoilOhm">Resistance at 20 degrees Celsius in ohms, above 0.</param>
/// <param name="InductanceH">Inductance in henries, above 0.</param>
/// <param name="OperatesV">Voltage at the coil at 20 degrees at which it pulls, in volts, above <paramref name="ReleasesV"/>.</param>
/// <param name="ReleasesV">Voltage under which it lets go, in volts, above 0.</param>
/// <param name="TravelS">Time the current must have stood until the contacts are over, in seconds, at least 0.</param>
/// <param name="ReleaseTravelS">The same back, in seconds, at least 0.</param>
/// <param name="ClampV">Voltage at which the coil drives its current on when it is switched off, in volts, at least 0.</param>
public sealed record RelayCoil(
    double CoilOhm, double InductanceH, double OperatesV, double ReleasesV, double TravelS, double ReleaseTravelS, double ClampV)
{
    /// <summary>Copper's rise of resistance per kelvin at 20 degrees (IEC 60028: 0.00393).</summary>
    public const double CopperPerKelvin = 0.00393;

    /// <summary>Current that pulls it, in amperes: the force is the current's, whatever the copper's resistance.</summary>
    public double OperatesA => OperatesV / CoilOhm;

    /// <summary>Current under which it lets go, in amperes.</summary>
    public double ReleasesA => ReleasesV / CoilOhm;

    /// <summary>Resistance at a temperature, in ohms.</summary>
    /// <param name="celsius">The copper's temperature in degrees Celsius.</param>
    public double OhmAt(double celsius) => CoilOhm * (1 + (CopperPerKelvin * (celsius - 20)));
}

/// <summary>
/// A relay that the transmitter's own radio frequency switches: detector, smoothing, transistors, coil. The last stage carries the coil.
/// </summary>
public sealed record RelayCircuit
{
    /// <summary>The detector at the tap.</summary>
    public required RelayDetector Detector { get; init; }

    /// <summary>Smoothing capacitor in farads, above 0.</summary>
    public required double SmoothingF { get; init; }

    /// <summary>Resistor across it in ohms, above 0.</summary>
    public required double BleedOhm { get; init; }

    /// <summary>Supply in volts, above <see cref="SaturationV"/> and every stage's base voltage.</summary>
    public required double SupplyV { get; init; }

    /// <summary>What is left across a stage that is fully on, in volts, at least 0.</summary>
    public required double SaturationV { get; init; }

    /// <summary>The stages from the detector on, at least one.</summary>
    public required ImmutableArray<DriverStage> Stages { get; init; }

    /// <summary>The relay.</summary>
    public required RelayCoil Coil { get; init; }

    /// <summary>Temperature of the coil in degrees Celsius.</summary>
    public double CoilCelsius { get; init; } = 20;

    /// <summary>Resistance of the coil as warm as it is, in ohms.</summary>
    public double CoilOhm => Coil.OhmAt(CoilCelsius);

    /// <summary>Coil current where the last stage is fully on, in amperes.</summary>
    public double FullCoilA => (SupplyV - SaturationV) / CoilOhm;

    /// <summary>Base current of the first stage in amperes.</summary>
    /// <param name="smoothingV">Smoothing voltage in volts.</param>
    public double FirstBaseA(double smoothingV) => Math.Max(0, smoothingV - Stages[0].BaseEmitterV) / Stages[0].BaseOhm;

    /// <summary>What loads the smoothing capacitor: bleed and first base, in amperes.</summary>
    /// <param name="smoothingV">Smoothing voltage in volts.</param>
    public double LoadA(double smoothingV) => (smoothingV / BleedOhm) + FirstBaseA(smoothingV);

    /// <summary>The slope of <see cref="LoadA"/> in siemens.</summary>
    /// <param name="smoothingV">Smoothing voltage in volts.</param>
    public double LoadSlope(double smoothingV) =>
        (1 / BleedOhm) + (smoothingV > Stages[0].BaseEmitterV ? 1 / Stages[0].BaseOhm : 0);

    /// <summary>Base current of the last stage in amperes.</summary>
    /// <param name="smoothingV">Smoothing voltage in volts.</param>
    public double LastBaseA(double smoothingV)
    {
        double current = FirstBaseA(smoothingV);
        for (int i = 1; i < Stages.Length; i++)
        {
            current = Math.Min(Stages[i - 1].Gain * current, MostBaseA(i));
        }

        return current;
    }

    /// <summary>What the last stage can carry, in amperes.</summary>
    /// <param name="smoothingV">Smoothing voltage in volts.</param>
    public double CarryA(double smoothingV) => Stages[^1].Gain * LastBaseA(smoothingV);

    /// <summary>The smoothing voltage at which the last stage can just carry a current; null where it never can.</summary>
    /// <param name="coilA">The current in amperes, above 0.</param>
    public double? SmoothingFor(double coilA)
    {
        double wanted = coilA;
        for (int i = Stages.Length - 1; i >= 0; i--)
        {
            wanted /= Stages[i].Gain;
            if (i > 0 && wanted > MostBaseA(i))
            {
                return null;
            }
        }

        return Stages[0].BaseEmitterV + (wanted * Stages[0].BaseOhm);
    }

    private double MostBaseA(int stage) =>
        Math.Max(0, SupplyV - SaturationV - Stages[stage].BaseEmitterV) / Stages[stage].BaseOhm;
}
