using System.Numerics;

namespace Spurless.Tests.Common.Fixtures;

/// <summary>
/// The three-tank filter of the invented demo site as a chain of ladder arms, for pictures of a fixture that no study computed.
/// Parts and laws of loss as the demo states them; the figures it must give stand in the demo's description (2.92 dB at 145.05 MHz).
/// </summary>
internal static class DemoFilter
{
    private const double F0 = 145.05e6;

    /// <summary>S21 in dB between 50 ohm.</summary>
    public static double GainDb(double hertz)
    {
        double w = 2 * Math.PI * hertz;
        Complex Capacitor(double farads) => (1 / (2 * Math.PI * F0 * farads * 400)) + (1 / new Complex(0, w * farads));
        Complex Coil(double henries) => (2 * Math.PI * F0 * henries / 160 * Math.Sqrt(hertz / F0)) + new Complex(0, w * henries);
        Complex Tank(double henries, double farads) => (1 / Coil(henries)) + (1 / Capacitor(farads));
        (Complex A, Complex B, Complex C, Complex D) m = (1, 0, 0, 1);
        void Series(Complex z) => m = (m.A, (m.A * z) + m.B, m.C, (m.C * z) + m.D);
        void Shunt(Complex y) => m = (m.A + (m.B * y), m.B, m.C + (m.D * y), m.D);
        Series(Capacitor(6.8e-12));
        Shunt(Tank(27.6e-9, 36e-12));
        Series(Capacitor(1.6e-12));
        Shunt(Tank(28.6e-9, 39e-12));
        Series(Capacitor(1.6e-12));
        Shunt(Tank(27.6e-9, 36e-12));
        Series(Capacitor(6.8e-12));
        return 20 * Math.Log10((2 / (m.A + (m.B / 50) + (m.C * 50) + m.D)).Magnitude);
    }

    /// <summary>The demo's feedline: 1.2 dB at 145 MHz, growing with the square root of frequency.</summary>
    public static double FeedlineGainDb(double hertz) => -1.2 * Math.Sqrt(hertz / 145e6);
}
