using System.Globalization;
using Spurless.Circuits.Relays;

namespace Spurless.Bench.Bypasses;

/// <summary>A relay that the radio frequency switches: the envelope on a tabulated detector, against every cycle of the carrier.</summary>
public static class BypassRows
{
    private const string Subject = "Bypass relay";
    private const double PressS = 24e-3;
    private const double PeakV = 70.71;
    private const int Cycles = 200;
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(3);

    private static readonly RelayCircuit _circuit = new()
    {
        Detector = new RelayDetector
        {
            FrequencyHz = 145.65e6,
            TapF = 2.2e-12,
            Rectifier = Rectifier.Doubler,
            Diode = new Diode(20e-9, 1.05, 5, 0.8e-12),
        },
        SmoothingF = 10e-9,
        BleedOhm = 100e3,
        SupplyV = 12,
        SaturationV = 0.2,
        Stages = [new DriverStage(10e3, 100, 0.65), new DriverStage(4.7e3, 50, 0.7)],
        Coil = new RelayCoil(320, 0.4, 8.4, 1.2, 3e-3, 2e-3, 0.7),
    };

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(Subject, "a press of 24 ms, table made, vs every cycle of 145.65 MHz", ">= 100 x", static _ => Press()),
        new BenchRow(Subject, "a second of two tones 1 kHz apart, table at hand", "<= 0.1 s", static _ => Speech()),
    ];

    private static BenchResult Press()
    {
        double ours = Timing.Best(
            static () => RelayTransient.Run(_circuit, DetectorTable.Of(_circuit.Detector, PeakV), PeakV, Keying.Carrier(PressS)), Budget);
        double each = Timing.Best(
            static () =>
            {
                double sum = 0;
                for (int i = 0; i < Cycles; i++)
                {
                    sum += DetectorCycle.MeanCurrent(_circuit.Detector, PeakV, i * PeakV / Cycles);
                }

                if (!(sum > 0))
                {
                    throw new InvalidOperationException("the detector gives no current");
                }
            },
            Budget) / Cycles * PressS * _circuit.Detector.FrequencyHz;
        return new BenchResult(
            Timing.Text(ours), Timing.Text(each), string.Create(CultureInfo.InvariantCulture, $"{each / ours:#,0} x"), each / ours >= 100,
            string.Create(CultureInfo.InvariantCulture, $"cycles extrapolated from {Cycles}"));
    }

    private static BenchResult Speech()
    {
        DetectorTable table = DetectorTable.Of(_circuit.Detector, PeakV);
        double ours = Timing.Best(() => RelayTransient.Run(_circuit, table, PeakV, Keying.TwoTones(1000, 1)), Budget);
        return new BenchResult(Timing.Text(ours), "", "", ours <= 0.1, "");
    }
}
