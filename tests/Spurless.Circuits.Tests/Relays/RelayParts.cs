using Spurless.Circuits.Relays;

namespace Spurless.Circuits.Tests.Relays;

/// <summary>An invented relay; the figures are those a file's description uses as an example.</summary>
internal static class RelayParts
{
    public static Diode Schottky { get; } = new(20e-9, 1.05, 5, 0.8e-12);

    public static RelayDetector Detector { get; } = new()
    {
        FrequencyHz = 145.65e6,
        TapF = 2.2e-12,
        Rectifier = Rectifier.Doubler,
        Diode = Schottky,
    };

    public static RelayCoil Coil { get; } = new(320, 0.4, 8.4, 1.2, 3e-3, 2e-3, 0.7);

    public static RelayCircuit Circuit { get; } = new()
    {
        Detector = Detector,
        SmoothingF = 10e-9,
        BleedOhm = 100e3,
        SupplyV = 12,
        SaturationV = 0.2,
        Stages = [new DriverStage(10e3, 100, 0.65), new DriverStage(4.7e3, 50, 0.7)],
        Coil = Coil,
    };
}
