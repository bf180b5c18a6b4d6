namespace Spurless.Circuits.Relays;

/// <summary>
/// What a relay does on a carrier that has stood long: found from the detector's periodic state itself, without a table and without time.
/// </summary>
public static class RelaySteady
{
    /// <summary>No tap sees more: 1 MV. What needs more never operates.</summary>
    private const double MostPeakV = 1e6;

    /// <summary>Amplitude on the line of a power into a matched line, <c>sqrt(2 P Z0)</c>, in volts.</summary>
    /// <param name="watts">Power in watts.</param>
    /// <param name="ohm">Impedance of the line in ohms.</param>
    public static double PeakV(double watts, double ohm) => Math.Sqrt(2 * watts * ohm);

    /// <summary>Power of an amplitude on a matched line, in watts.</summary>
    /// <param name="peakV">Amplitude in volts.</param>
    /// <param name="ohm">Impedance of the line in ohms.</param>
    public static double Watts(double peakV, double ohm) => peakV * peakV / (2 * ohm);

    /// <summary>Least amplitude on the line at which the relay pulls, in volts; null where none does.</summary>
    /// <param name="circuit">The circuit.</param>
    public static double? OperatesAtV(RelayCircuit circuit)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        return circuit.FullCoilA < circuit.Coil.OperatesA ? null : PeakFor(circuit, circuit.SmoothingFor(circuit.Coil.OperatesA));
    }

    /// <summary>Amplitude under which a relay that is over lets go, in volts; null where it never pulls.</summary>
    /// <param name="circuit">The circuit.</param>
    public static double? ReleasesBelowV(RelayCircuit circuit)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        return OperatesAtV(circuit) is null ? null : PeakFor(circuit, circuit.SmoothingFor(circuit.Coil.ReleasesA));
    }

    /// <summary>Smoothing voltage that stands, in volts.</summary>
    /// <param name="circuit">The circuit.</param>
    /// <param name="peakV">Amplitude on the line in volts, at least 0.</param>
    public static double SmoothingV(RelayCircuit circuit, double peakV)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        double high = Math.Max(circuit.Detector.OpenShare * peakV, 1e-6);
        return Root(u => DetectorCycle.MeanCurrent(circuit.Detector, peakV, u) - circuit.LoadA(u), 0, high);
    }

    // The amplitude that holds a smoothing voltage.
    private static double? PeakFor(RelayCircuit circuit, double? smoothingV)
    {
        if (smoothingV is not { } u)
        {
            return null;
        }

        double load = circuit.LoadA(u), low = u / circuit.Detector.OpenShare / 4, high = Math.Max(low, 0.01);
        double Missing(double peakV) => load - DetectorCycle.MeanCurrent(circuit.Detector, peakV, u);
        while (Missing(high) > 0)
        {
            (low, high) = (high, high * 2);
            if (high > MostPeakV)
            {
                return null;
            }
        }

        return Missing(low) <= 0 ? low : Root(Missing, low, high);
    }

    // A falling function's zero by false position with halved ends (the Illinois rule, a textbook method), to 1e-6 of the place.
    private static double Root(Func<double, double> of, double low, double high)
    {
        double yLow = of(low), yHigh = of(high);
        if (yLow <= 0 || yHigh >= 0)
        {
            return yLow <= 0 ? low : high;
        }

        int last = 0;
        for (int i = 0; i < 80 && high - low > 1e-6 * high; i++)
        {
            double at = low + ((high - low) * (yLow / (yLow - yHigh)));
            double y = of(at);
            if (y == 0)
            {
                return at;
            }

            (low, high) = y > 0 ? (at, high) : (low, at);
            (yLow, yHigh) = y > 0 ? (y, last == 1 ? yHigh / 2 : yHigh) : (last == -1 ? yLow / 2 : yLow, y);
            last = y > 0 ? 1 : -1;
        }

        return (low + high) / 2;
    }
}
