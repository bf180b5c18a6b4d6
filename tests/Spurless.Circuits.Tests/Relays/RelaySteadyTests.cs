using CsCheck;
using Spurless.Circuits.Relays;

namespace Spurless.Circuits.Tests.Relays;

/// <summary>
/// Where a relay pulls and lets go, held against the currents that must balance there, and against what more or less of a part does.
/// </summary>
public sealed class RelaySteadyTests
{
    private static readonly Gen<RelayCircuit> _circuits = Gen.Select(
        Gen.Double[0.5e-12, 10e-12], Gen.Double[20e3, 1e6], Gen.Double[2e3, 50e3], Gen.Double[9, 15]).Select(
            static (tap, bleed, first, supply) => RelayParts.Circuit with
            {
                Detector = RelayParts.Detector with { TapF = tap },
                BleedOhm = bleed,
                SupplyV = supply,
                Stages = [RelayParts.Circuit.Stages[0] with { BaseOhm = first }, RelayParts.Circuit.Stages[1]],
            });

    /// <summary>
    /// At the amplitude that is told the detector's mean current is what bleed and first base draw, at the voltage for which the last stage
    /// carries just the coil's operating current.
    /// </summary>
    [Fact]
    public void OperatesAtV_is_where_the_currents_balance() => _circuits.Sample(static circuit =>
    {
        double peak = RelaySteady.OperatesAtV(circuit)!.Value, smoothing = RelaySteady.SmoothingV(circuit, peak);
        Assert.Equal(1, DetectorCycle.MeanCurrent(circuit.Detector, peak, smoothing) / circuit.LoadA(smoothing),
            3e-3); // as well as a mean current is known
        Assert.Equal(1, circuit.CarryA(smoothing) / circuit.Coil.OperatesA, 2e-3);

        // By hand back through both stages: coil current over both gains through the first base's resistor, on top of its junction.
        double first = circuit.Coil.OperatesA / circuit.Stages[0].Gain / circuit.Stages[1].Gain;
        Assert.Equal(circuit.Stages[0].BaseEmitterV + (first * circuit.Stages[0].BaseOhm), smoothing, 1e-3 * smoothing);
    }, iter: 20);

    [Fact]
    public void ReleasesBelowV_lies_under_OperatesAtV_and_balances_too() => _circuits.Sample(static circuit =>
    {
        double operates = RelaySteady.OperatesAtV(circuit)!.Value, releases = RelaySteady.ReleasesBelowV(circuit)!.Value;
        Assert.InRange(releases, 0, operates * (1 - 1e-6));
        Assert.Equal(1, circuit.CarryA(RelaySteady.SmoothingV(circuit, releases)) / circuit.Coil.ReleasesA, 5e-3);
    }, iter: 20);

    /// <summary>More signal, more voltage; a larger tap needs less signal, a heavier bleed and a larger base resistor more.</summary>
    [Fact]
    public void Everything_moves_the_way_it_must() => Gen.Select(_circuits, Gen.Double[1, 60], Gen.Double[1.05, 2]).Sample(
        static (circuit, peak, more) =>
        {
            Assert.True(RelaySteady.SmoothingV(circuit, peak * more) > RelaySteady.SmoothingV(circuit, peak) - 1e-9);
            double here = RelaySteady.OperatesAtV(circuit)!.Value;
            RelayDetector larger = circuit.Detector with { TapF = circuit.Detector.TapF * more };
            Assert.True(RelaySteady.OperatesAtV(circuit with { Detector = larger }) < here);
            Assert.True(RelaySteady.OperatesAtV(circuit with { BleedOhm = circuit.BleedOhm / more }) > here * (1 - 1e-5));
            DriverStage first = circuit.Stages[0];
            Assert.True(RelaySteady.OperatesAtV(circuit with
            {
                Stages = [first with { BaseOhm = first.BaseOhm * more },
                circuit.Stages[1]]
            })
                > here * (1 - 1e-5));
            Assert.True(RelaySteady.OperatesAtV(circuit with { Stages = [first with { Gain = first.Gain * more }, circuit.Stages[1]] })
                < here * (1 + 1e-5));
        }, iter: 12);

    /// <summary>
    /// The period closes whatever stands at the detector, from nothing to kilowatts, the smoothing capacitor empty or far over what the
    /// line gives: more signal never charges less, more voltage never more, and over the open voltage only the diodes' reverse current is
    /// left.
    /// </summary>
    [Fact]
    public void MeanCurrent_closes_for_any_signal_and_any_charge() => Gen.Select(
        Gen.Double[-13, -10.5], Gen.Double[-2, 2.7], Gen.Double[0, 1.6], Gen.Bool).Sample(static (tap, lg, share, doubler) =>
        {
            RelayDetector detector = RelayParts.Detector with
            {
                TapF = Math.Pow(10, tap),
                Rectifier = doubler ? Rectifier.Doubler : Rectifier.Single,
            };
            double peak = Math.Pow(10, lg), smoothing = share * detector.OpenShare * peak;
            double here = DetectorCycle.MeanCurrent(detector, peak, smoothing);

            // 0.3 % of it, or a ten thousandth of what the tap moves to and fro: the period is closed to no more.
            double tolerance = 1e-9 + (3e-3 * Math.Abs(here)) + (1e-4 * peak * detector.TapF * detector.FrequencyHz);
            Assert.True(double.IsFinite(here));
            Assert.True(DetectorCycle.MeanCurrent(detector, peak * 1.1, smoothing) >= here - tolerance);
            Assert.True(DetectorCycle.MeanCurrent(detector, peak, (smoothing * 1.1) + 0.1) <= here + tolerance);
            if (share > 1.05)
            {
                Assert.InRange(here, (-2.1 * detector.Diode.SaturationA) - tolerance, 1e-8 + tolerance);
            }
        }, iter: 60);

    /// <summary>
    /// A warm coil of copper has more resistance (0.393 % a kelvin, from memory): its current falls, and at last it never pulls.
    /// </summary>
    [Fact]
    public void A_warm_coil_pulls_while_the_supply_can_and_then_not_at_all() => _circuits.Sample(static circuit =>
    {
        double full = circuit.FullCoilA / circuit.Coil.OperatesA, hottest = 20 + ((full - 1) / RelayCoil.CopperPerKelvin);
        Assert.NotNull(RelaySteady.OperatesAtV(circuit with { CoilCelsius = hottest - 0.1 }));
        Assert.Null(RelaySteady.OperatesAtV(circuit with { CoilCelsius = hottest + 0.1 }));
        Assert.Null(RelaySteady.ReleasesBelowV(circuit with { CoilCelsius = hottest + 0.1 }));
    }, iter: 10);

    /// <summary>25 W in 50 ohm are 50 V peak, and back.</summary>
    [Fact]
    public void Watts_and_volts_go_into_each_other()
    {
        Assert.Equal(50, RelaySteady.PeakV(25, 50), 1e-12);
        Gen.Select(Gen.Double[1e-9, 1e4], Gen.Double[1, 600]).Sample(static (watts, ohm) =>
        {
            Assert.Equal(watts, RelaySteady.Watts(RelaySteady.PeakV(watts, ohm), ohm), 1e-12 * watts);
            Assert.Equal(2 * RelaySteady.PeakV(watts, ohm), RelaySteady.PeakV(4 * watts, ohm), 1e-9);
        });
    }
}
