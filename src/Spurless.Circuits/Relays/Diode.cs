namespace Spurless.Circuits.Relays;

/// <summary>
/// A diode with series resistance, <c>I = Is (exp((U - I Rs)/(n VT)) - 1)</c>, and a constant capacitance of its junction across it.
/// </summary>
/// <param name="SaturationA">Saturation current <c>Is</c> in amperes, above 0.</param>
/// <param name="Emission">Emission coefficient <c>n</c>, above 0.</param>
/// <param name="SeriesOhm">Series resistance <c>Rs</c> in ohms, above 0.</param>
/// <param name="JunctionF">Capacitance of the junction in farads, at least 0.</param>
public sealed record Diode(double SaturationA, double Emission, double SeriesOhm, double JunctionF)
{
    /// <summary>Thermal voltage in volts, that of 300 K (kT/q with the exact constants of the SI is 25.852 mV there).</summary>
    public const double ThermalV = 0.02585;

    private readonly double _scale = Emission * ThermalV;
    private readonly double _offset = Math.Log(SaturationA * SeriesOhm / (Emission * ThermalV));

    /// <summary>Current through it at a voltage across it, without that into the junction's capacitance.</summary>
    /// <param name="volts">Voltage from anode to cathode, in volts.</param>
    /// <returns>Current in amperes and its slope in siemens.</returns>
    /// <remarks>
    /// Closed form by Lambert's W: with <c>z = (I + Is) Rs/(n VT)</c>, <c>ln z + z = ln(Is Rs/(n VT)) + (U + Is Rs)/(n VT)</c>, solved by
    /// Newton's method to the last digits; no voltage overflows.
    /// </remarks>
    public (double Amperes, double Siemens) At(double volts)
    {
        double wanted = _offset + ((volts + (SaturationA * SeriesOhm)) / _scale);
        double z;
        if (wanted < -36)
        {
            z = Math.Exp(wanted); // z itself is lost beside ln z
        }
        else
        {
            z = wanted > 1 ? wanted - (Math.Log(wanted) * (1 - (1 / wanted))) : Math.Exp(wanted) / (1 + Math.Exp(wanted));
            for (int i = 0; i < 8; i++)
            {
                double next = z * (1 + wanted - Math.Log(z)) / (1 + z);
                if (Math.Abs(next - z) <= 1e-9 * next)
                {
                    z = next;
                    break;
                }

                z = Math.Max(next, z * 1e-3);
            }
        }

        return ((_scale / SeriesOhm * z) - SaturationA, z / (1 + z) / SeriesOhm);
    }
}
