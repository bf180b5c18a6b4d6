using Spurless.Circuits.Measured;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Studies;

/// <summary>Circuits, sweeps and amplifiers in the chain of a whole site file.</summary>
public sealed class FilterInLineTests
{
    // 50 ohm in series between 50 ohm: S21 = 2 Z0 / (2 Z0 + R) = 2/3 by Ohm's law, S11 = 1/3.
    private const string SeriesResistor = """
        spurless_circuit: 1
        name: 50 ohm in series
        ports: { in: a, out: b, impedance: 50 ohm }
        parts:
          R1: { resistor: 50 ohm, between: [a, b] }
        """;

    // At 150 MHz 0.0001 pF has 10.6 Mohm: 20 lg(|100 - jX| / 100) = 100.5 dB.
    private const string TinyCapacitor = """
        spurless_circuit: 1
        name: hardly a path
        ports: { in: a, out: b, impedance: 50 ohm }
        parts:
          C1: { capacitor: 0.0001 pF, between: [a, b] }
        """;

    private const string Sweep = """
        # MHz S RI R 50
        100 0 0 0.5 0 0.5 0 0 0
        200 0 0 0.5 0 0.5 0 0 0
        """;

    private const double SeriesDb = 3.521825181; // 20 lg 1.5
    private const double HalfDb = 6.020599913; // 20 lg 2

    [Fact]
    public void Rejection_between_matched_ends_has_no_band()
    {
        StudyResult study = Study("mismatch: 0", "antenna: { mismatch: 0 }", "chain: [ { circuit: series.circuit.yaml } ]");
        Assert.Empty(study.KeysNotUsedYet);
        ReceiverFindings receiver = study.Receivers.Single();
        Assert.All(receiver.Carriers, static c =>
        {
            Assert.Equal(SeriesDb, c.Rejection!.NominalDb, 1e-6);
            Assert.Equal(SeriesDb, c.Rejection.LowDb!.Value, 1e-6);
            Assert.Equal(SeriesDb, c.Rejection.HighDb!.Value, 1e-6);
        });
        Assert.DoesNotContain(receiver.Assumed, static a => a is ReceiverAssumption.ReflectionTaken);
    }

    [Fact]
    public void Rejection_with_a_stated_mismatch_has_the_band_of_the_closed_form()
    {
        // Antenna matched, receiver |Gr| 0.6: 1/|1 - S22 Gr|^2 with S22 = 1/3, so 20 lg(1 +- 0.2) about the nominal figure.
        ReceiverFindings receiver =
            Study("mismatch: 0.6", "antenna: { mismatch: 0 }", "chain: [ { circuit: series.circuit.yaml } ]").Receivers.Single();
        CarrierFinding near = receiver.Carriers.Single(static c => c.Emitter == "near");
        Assert.Equal(SeriesDb + (20 * Math.Log10(0.8)), near.Rejection!.LowDb!.Value, 1e-6);
        Assert.Equal(SeriesDb + (20 * Math.Log10(1.2)), near.Rejection.HighDb!.Value, 1e-6);
        Assert.All(receiver.WithoutFilter!.Carriers, static c => Assert.Null(c.Rejection));
    }

    [Fact]
    public void Rejection_without_a_stated_mismatch_takes_a_half_and_says_so()
    {
        ReceiverFindings stated =
            Study("mismatch: 0.5", "antenna: { mismatch: 0.5 }", "chain: [ { circuit: series.circuit.yaml } ]").Receivers.Single();
        ReceiverFindings assumed = Study("chain: [ { circuit: series.circuit.yaml } ]").Receivers.Single();
        Assert.Equal(stated.Carriers.Select(static c => c.Rejection), assumed.Carriers.Select(static c => c.Rejection));
        Assert.Single(assumed.Assumed, new ReceiverAssumption.ReflectionTaken(0.5, AtAntenna: true, AtReceiver: true));
        Assert.DoesNotContain(
            Study("chain: [ { attenuator: 3 dB } ]").Receivers.Single().Assumed,
            static a => a is ReceiverAssumption.ReflectionTaken);
    }

    [Fact]
    public void Circuit_rejecting_over_70_dB_without_a_leakage_is_remarked_once()
    {
        ReceiverFindings receiver =
            Study("chain: [ { circuit: tiny.circuit.yaml }, { attenuator: 3 dB }, { circuit: tiny.circuit.yaml } ]").Receivers.Single();
        ReceiverAssumption.LeakageNotStated note = Assert.Single(receiver.Assumed.OfType<ReceiverAssumption.LeakageNotStated>());
        Assert.Equal(("hardly a path", 70), (note.Filter, note.FromDb));
        Assert.Equal(101, note.RejectsDb, 0.5);
        Assert.DoesNotContain(receiver.WithoutFilter!.Assumed, static a => a is ReceiverAssumption.LeakageNotStated);
    }

    [Fact]
    public void Circuit_with_a_stated_leakage_rejects_no_more_than_it_and_is_not_remarked()
    {
        ReceiverFindings receiver = Study("chain: [ { circuit: capped.circuit.yaml } ]").Receivers.Single();
        Assert.All(receiver.Carriers, static c => Assert.Equal(80, c.Rejection!.NominalDb, 1e-6));
        Assert.DoesNotContain(receiver.Assumed, static a => a is ReceiverAssumption.LeakageNotStated);
    }

    [Fact]
    public void Sweep_that_gives_out_more_than_it_gets_is_used_and_marked_with_its_figure()
    {
        // Singular values of [[0.9, 0.6], [0.6, 0.9]] are 0.9 +- 0.6.
        ReceiverFindings receiver = Study("chain: [ { two_port: loud.s2p } ]").Receivers.Single();
        Assert.Equal(
            -30 + (20 * Math.Log10(0.6)), receiver.Carriers.Single(static c => c.Emitter == "near").LevelAtReceiverDbm!.Value, 1e-6);
        ReceiverAssumption.OfSweep remark = Assert.Single(receiver.Assumed.OfType<ReceiverAssumption.OfSweep>());
        Assert.Equal("loud.s2p", remark.File);
        Assert.Equal(1.5, Assert.IsType<NetworkRemark.GivesOutPower>(remark.Remark).Passivity.LargestSingularValue, 1e-9);
    }

    [Fact]
    public void Carrier_outside_the_sweep_counts_as_not_attenuated_and_is_marked()
    {
        ReceiverFindings receiver = Study("chain: [ { two_port: half.s2p } ]").Receivers.Single();
        CarrierFinding near = receiver.Carriers.Single(static c => c.Emitter == "near");
        CarrierFinding far = receiver.Carriers.Single(static c => c.Emitter == "far");
        Assert.Equal(-30 - HalfDb, near.LevelAtReceiverDbm!.Value, 1e-6);
        Assert.Empty(near.Assumed);
        Assert.Equal(-30, far.LevelAtReceiverDbm!.Value, 1e-9);
        Assert.Equal((0, null, null), (far.Rejection!.NominalDb, far.Rejection.LowDb, far.Rejection.HighDb));
        Assert.Contains(new LevelNote.FilterEnds("half.s2p"), far.Assumed);
    }

    [Fact]
    public void Selectivity_as_a_sweep_acts_before_the_first_active_stage_and_is_no_filter()
    {
        ReceiverFindings receiver = Study("selectivity: { two_port: half.s2p }", "chain: [ { attenuator: 3 dB } ]").Receivers.Single();
        Assert.Null(receiver.WithoutFilter);
        CarrierFinding near = receiver.Carriers.Single(static c => c.Emitter == "near");
        Assert.Null(near.Rejection);
        Assert.Equal(-33 - HalfDb, near.LevelAtReceiverDbm!.Value, 1e-6);
        CarrierFinding far = receiver.Carriers.Single(static c => c.Emitter == "far");
        Assert.Equal(-33, far.LevelAtReceiverDbm!.Value, 1e-9);
        Assert.Contains(new LevelNote.FilterEnds("selectivity half.s2p"), far.Assumed);
    }

    // Feedline 2 dB at near's 150 MHz, then 3 dB, the circuit, and 10 dB of gain: what was read at a place is referred back to the antenna.
    [Theory]
    [InlineData("antenna", -30, LevelsAt.Antenna)]
    [InlineData("feedline end", -28, LevelsAt.FeedlineEnd)]
    [InlineData("receiver", -30 + 2 + 3 + SeriesDb - 10, LevelsAt.Receiver)]
    public void LevelsAt_refers_a_reading_to_the_antenna(string place, double atAntennaDbm, LevelsAt how)
    {
        ReceiverFindings receiver = Study(
            "levels_at: " + place,
            "chain: [ { feedline: { loss: 2 dB at 150 MHz } }, { attenuator: 3 dB }, { circuit: series.circuit.yaml }, "
                + "{ amplifier: { gain: 10 dB, noise_figure: 2 dB, iip3: 10 dBm } } ]").Receivers.Single();
        CarrierFinding near = receiver.Carriers.Single(static c => c.Emitter == "near");
        Assert.Equal(atAntennaDbm, near.LevelAtAntennaDbm!.Value, 1e-6);
        Assert.Equal(new LevelNote.Measured(how), near.HowKnown);
    }

    [Fact]
    public void LevelsAt_receiver_is_read_in_front_of_its_selectivity()
    {
        CarrierFinding near = Study("levels_at: receiver", "selectivity: { two_port: half.s2p }", "chain: [ { attenuator: 3 dB } ]")
            .Receivers.Single().Carriers.Single(static c => c.Emitter == "near");
        Assert.Equal(-27, near.LevelAtAntennaDbm!.Value, 1e-9);
    }

    [Fact]
    public void Amplifier_and_receiver_make_the_product_both_and_it_is_summed_in_power_and_in_voltage()
    {
        // 2 x 146.05 - 147.05 = 145.05 MHz from -40 dBm each. P = 2 Pa + Pb - 2 IIP3 at each stage's input (docs/method/product-levels.md):
        // amplifier -120 + 30 = -90 dBm, 12 dB up to the receiver's input: -78; the receiver's carriers stand at -28 dBm: -84 + 4 = -80
        // dBm.
        ReceiverFindings receiver = Study(
            "chain: [ { amplifier: { gain: 15 dB, noise_figure: 2 dB, iip3: -15 dBm } }, { attenuator: 3 dB } ]").Receivers.Single();
        ProductFinding product = receiver.Products.Single(
            static p => p.Terms.Count == 2 && p.Terms[0].Name == "one" && p.Terms[1].Name == "other");
        Assert.Equal(10 * Math.Log10(Math.Pow(10, -7.8) + Math.Pow(10, -8)), product.LevelDbm!.Value, 1e-5);
        Assert.Equal(20 * Math.Log10(Math.Pow(10, -3.9) + Math.Pow(10, -4)), product.LevelWorstDbm!.Value, 1e-5);
        Assert.Equal("amplifier 1", product.MadeIn);

        // Each stage alone, then the two transmitters, of which nothing is known, then outside.
        Assert.Equal(
            [
                (Mechanism.Receiver, "amplifier 1"), (Mechanism.Receiver, "ear"), (Mechanism.Transmitter, "one"),
                (Mechanism.Transmitter, "other"), (Mechanism.Outside, null),
            ],
            product.Places.Select(static p => (p.Mechanism, p.Name)));
        Assert.Equal(-78, product.Places[0].LevelDbm!.Value, 1e-5);
        Assert.Equal(-80, product.Places[1].LevelDbm!.Value, 1e-5);
        Assert.Same(product.Places[0], product.Made);
        Assert.All(product.Places.Skip(2), static p => Assert.Null(p.LevelDbm));
    }

    [Fact]
    public void Receiver_that_is_called_like_an_amplifier_is_not_mistaken_for_it()
    {
        // Carriers of -10 dBm at the receiver's own stage make -30 dBm there, those of -40 dBm in the amplifier -160 dBm, 30 dB up: the
        // last stage is meant, and no gain follows it.
        ReceiverFindings receiver = Study(
            "called amplifier 1", "chain: [ { amplifier: { gain: 30 dB, noise_figure: 2 dB, iip3: 20 dBm } } ]").Receivers.Single();
        ProductFinding product = receiver.Products.First(
            static p => p.Terms.Count == 2 && p.Terms[0].Name == "one" && p.Terms[1].Name == "other");
        Assert.Equal(1, product.Made.Stage);
        IReadOnlyList<SumLine> lines = ProductArithmetic.Of(receiver, product);
        int end = lines.ToList().FindIndex(static l => l.Kind == SumLineKind.Subtotal);
        Assert.Equal(lines[end].Value, lines.Take(end).Sum(static l => l.Value), 1e-4);
        Assert.DoesNotContain(lines, static l => l.Part == SumPart.GainToReceiverInput);
    }

    [Fact]
    public void Filter_in_front_of_an_amplifier_lowers_both_parts_of_a_product_threefold()
    {
        const string stages = "{ amplifier: { gain: 15 dB, noise_figure: 2 dB, iip3: -15 dBm } }, { attenuator: 3 dB }";
        ReceiverFindings receiver = Study($"chain: [ {{ circuit: series.circuit.yaml }}, {stages} ]").Receivers.Single();
        ProductFinding with = receiver.Products.Single(static p => p.Terms[0].Name == "one" && p.Terms[1].Name == "other");
        ProductFinding without = receiver.WithoutFilter!.Products.Single(
            static p => p.Terms[0].Name == "one" && p.Terms[1].Name == "other");
        Assert.Equal(-3 * SeriesDb, with.LevelDbm!.Value - without.LevelDbm!.Value, 1e-5);
    }

    [Fact]
    public void Unknown_value_of_a_circuit_in_the_chain_is_refused_where_it_stands()
    {
        Assert.Null(Load(out IReadOnlyList<Diagnostic> findings, "chain: [ { circuit: guess.circuit.yaml } ]"));
        Diagnostic finding = Assert.Single(findings);
        Assert.Equal(
            "guess.circuit.yaml:6:3: a value of C1 is unknown; give it a value, or let 'fit' find it from a sweep",
            finding.ToString().Replace("error: ", "", StringComparison.Ordinal));
    }

    [Fact]
    public void One_port_sweep_in_the_chain_is_refused_where_it_is_named()
    {
        Assert.Null(Load(out IReadOnlyList<Diagnostic> findings, "chain: [ { two_port: one.s1p } ]"));
        Diagnostic finding = Assert.Single(findings);
        Assert.Contains("'one.s1p' is a one-port sweep; name a two-port sweep (.s2p) here", finding.ToString(), StringComparison.Ordinal);
        Assert.StartsWith("t.site.yaml:10:", finding.ToString(), StringComparison.Ordinal);
    }

    private static StudyResult Study(params string[] receiverLines)
    {
        LoadedSite? site = Load(out IReadOnlyList<Diagnostic> findings, receiverLines);
        Assert.Empty(findings);
        return StudyService.Run(site!, new StudyOptions { FloorDbm = double.NegativeInfinity });
    }

    private static LoadedSite? Load(out IReadOnlyList<Diagnostic> findings, params string[] receiverLines)
    {
        string name = receiverLines.FirstOrDefault(static l => l.StartsWith("called ", StringComparison.Ordinal))?["called ".Length..]
            ?? "ear";
        receiverLines = [.. receiverLines.Where(static l => !l.StartsWith("called ", StringComparison.Ordinal))];
        string text = $$"""
            spurless: 1
            site: a filter in line (invented)
            receivers:
              - name: {{name}}
                frequency: 145.05 MHz
                channel: 12.5 kHz
                if_bandwidth: 8 kHz
                noise_figure: 6 dB
                iip3: -2 dBm
                {{string.Join("\n    ", receiverLines)}}
            emitters:
              - { name: near, frequency: 150 MHz, emission: 11K2F3E, level: -30 dBm }
              - { name: far, frequency: 450 MHz, emission: 11K2F3E, level: -30 dBm }
              - { name: one, frequency: 146.05 MHz, emission: 11K2F3E, level: -40 dBm }
              - { name: other, frequency: 147.05 MHz, emission: 11K2F3E, level: -40 dBm }
            search: { orders: 2-3, signals: 2 }
            """;
        StubFiles files = new(
            ("series.circuit.yaml", SeriesResistor),
            ("tiny.circuit.yaml", TinyCapacitor),
            ("capped.circuit.yaml", TinyCapacitor + "\nleakage: 80 dB\n"),
            ("guess.circuit.yaml", SeriesResistor + "\n  C1: { capacitor: unknown, range: [0.5 pF, 47 pF], between: [b, gnd] }\n"),
            ("half.s2p", Sweep),
            ("loud.s2p", "# MHz S RI R 50\n100 0.9 0 0.6 0 0.6 0 0.9 0\n200 0.9 0 0.6 0 0.6 0 0.9 0\n"),
            ("one.s1p", "# MHz S RI R 50\n100 0.5 0\n200 0.5 0\n"));
        return SiteLoader.Load(text, "t.site.yaml", files, out findings);
    }
}
