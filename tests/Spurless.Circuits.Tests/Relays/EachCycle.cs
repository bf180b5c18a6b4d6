using Spurless.Circuits.Relays;

namespace Spurless.Circuits.Tests.Relays;

/// <summary>
/// A slow oracle: every cycle of the radio frequency in small implicit steps, node and smoothing capacitor together, diodes by their
/// defining equation. Shares nothing with the program's detector but the parts' values.
/// </summary>
internal static class EachCycle
{
    private const int Steps = 1200;

    /// <summary>Mean current into a smoothing capacitor that stands still, over the last of some cycles.</summary>
    public static double MeanCurrent(RelayDetector d, double peak, double smoothing, int cycles)
    {
        double x = 0, charge = 0, h = 1 / d.FrequencyHz / Steps;
        double omega = 2 * Math.PI * d.FrequencyHz;
        for (int i = 0; i < cycles * Steps; i++)
        {
            double before = Pass(d, x - smoothing);
            x = Step(d, x, smoothing, peak * (Math.Sin(omega * (i + 1) * h) - Math.Sin(omega * i * h)), h);
            if (i >= (cycles - 1) * Steps)
            {
                charge += h * (before + Pass(d, x - smoothing)) / 2;
            }
        }

        return charge * d.FrequencyHz;
    }

    /// <summary>The smoothing voltage after each microsecond of a carrier that begins at rest, loaded as the circuit says.</summary>
    public static double[] Smoothing(RelayCircuit c, double peak, int microseconds)
    {
        RelayDetector d = c.Detector;
        double x = 0, u = 0, h = 1 / d.FrequencyHz / Steps, omega = 2 * Math.PI * d.FrequencyHz;
        double[] found = new double[microseconds];
        long i = 0;
        for (int us = 0; us < microseconds; us++)
        {
            for (; i * h < (us + 1) * 1e-6; i++)
            {
                double before = Pass(d, x - u);
                x = Step(d, x, u, peak * (Math.Sin(omega * (i + 1) * h) - Math.Sin(omega * i * h)), h);
                double current = (before + Pass(d, x - u)) / 2;
                double load = (u / c.BleedOhm) + (Math.Max(0, u - c.Stages[0].BaseEmitterV) / c.Stages[0].BaseOhm);
                u += h * (current - load) / c.SmoothingF;
            }

            found[us] = u;
        }

        return found;
    }

    // (C_t + C_j) dx = C_t dv + (ground - pass) dt, trapezoidal, solved by bisection-safe Newton.
    private static double Step(RelayDetector d, double x, double u, double dv, double h)
    {
        double c = d.TapF + ((d.Rectifier == Rectifier.Doubler ? 2 : 1) * d.Diode.JunctionF);
        double old = Flow(d, x, u), next = x + (dv * d.TapF / c);
        for (int i = 0; i < 60; i++)
        {
            double miss = next - x - (((dv * d.TapF) + (h / 2 * (old + Flow(d, next, u)))) / c);
            double slope = 1 - (h / 2 * (Flow(d, next + 1e-7, u) - Flow(d, next - 1e-7, u)) / 2e-7 / c);
            double move = Math.Clamp(miss / slope, -0.2, 0.2);
            next -= move;
            if (Math.Abs(move) < 1e-10)
            {
                break;
            }
        }

        return next;
    }

    private static double Flow(RelayDetector d, double x, double u) =>
        (d.Rectifier == Rectifier.Doubler ? Pass(d, -x) : -x / 1000) - Pass(d, x - u);

    // The diode's equation by bisection on the current.
    private static double Pass(RelayDetector d, double volts)
    {
        Diode diode = d.Diode;
        double nvt = diode.Emission * 0.02585;
        if (volts <= 0)
        {
            return diode.SaturationA * (Math.Exp(volts / nvt) - 1);
        }

        // Voltage of the junction v: v + Rs Is (exp(v/nVT) - 1) = volts, Newton from above, which cannot overshoot.
        double v = Math.Min(volts, nvt * Math.Log(1 + (volts / diode.SeriesOhm / diode.SaturationA)));
        for (int i = 0; i < 60; i++)
        {
            double e = Math.Exp(v / nvt);
            double series = diode.SeriesOhm * diode.SaturationA;
            double move = (v + (series * (e - 1)) - volts) / (1 + (series * e / nvt));
            v -= move;
            if (Math.Abs(move) < 1e-13)
            {
                break;
            }
        }

        return diode.SaturationA * (Math.Exp(v / nvt) - 1);
    }
}
