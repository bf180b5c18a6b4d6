using System.Numerics;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Relays;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Bypasses;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Sites.Tests.Bypasses;

public sealed class BypassServiceTests
{
    private static readonly string Path = DemoSites.PathOf("quernmoss.bypass.yaml");

    private static readonly string Text = File.ReadAllText(Path);

    private static readonly BypassAnswer Demo = Ask(Text);

    private static LoadedBypass Load(string text)
    {
        DiagnosticBag bag = new();
        LoadedBypass? loaded = SourceReader.Bypass(SourceFile.OfText(Path, text, new SiteFolder(Path)), bag);
        Assert.True(loaded is not null, string.Join('\n', bag.InOrder()));
        return loaded;
    }

    private static BypassAnswer Ask(string text)
    {
        Outcome<BypassAnswer> outcome = BypassService.Ask(new BypassQuestion { Bypass = Load(text) });
        Assert.True(outcome.Answer is not null, outcome.Problem);
        return outcome.Answer;
    }

    private static Capacitor Open(string name, string from, string to) =>
        new() { Name = name, From = from, To = to, Capacitance = PartValue.Known(0.8e-12) };

    private static Circuit Filter => Demo.Question.Bypass.Filter!.Circuit!;

    // The smoothing is up within microseconds, so the coil's own closed form holds: L/R ln(I/(I - I_op)) + travel, and back
    // L/R ln((I + c/R)/(I_rel + c/R)) + release travel after the capacitor is empty enough.
    [Fact]
    public void Ask_demo_has_the_times_of_the_coil()
    {
        double full = 11.8 / 320, operates = 8.4 / 320, releases = 1.2 / 320, clamp = 0.7 / 320;
        Assert.Equal((0.4 / 320 * Math.Log(full / (full - operates))) + 3e-3, Demo.Press.AttackS!.Value, 1e-5);
        double back = (0.4 / 320 * Math.Log((full + clamp) / (releases + clamp))) + 2e-3;

        // The capacitor empties by 10 kohm from 68 V towards the base voltage in some time constants of 0.1 ms before that.
        Assert.InRange(Demo.Press.HangS!.Value, back + 0.2e-3, back + 1.0e-3);
        Assert.Equal(full, Demo.Press.CoilA, 1e-9);
        Assert.Equal((10 * Math.Log10(Demo.OperatesAtW!.Value)) + 30, Demo.StrongestOffAirDbm!.Value, 1e-9);
        Assert.True(Demo.ReleasesBelowW < Demo.OperatesAtW);
        Assert.Equal(Demo.OperatesAtW.Value * 2.25, Demo.OperatesAtWorstW!.Value, 1e-9); // 1/(1 - 1/3)^2
    }

    /// <summary>The filter's figures are those of the demo: 24.3 W of heat, 7.5 W in L2 (computed outside the program).</summary>
    [Fact]
    public void Ask_demo_energy_of_the_parts_is_heat_times_attack()
    {
        StressResult stress = Demo.Filter!.Stress!;
        Assert.Equal(24.3, Demo.Filter.HeatW!.Value, 0.05);
        Assert.Equal(stress.DissipatedW, stress.Parts.Sum(static p => p.DissipationW), 1e-6);
        Assert.Equal("L2", Demo.Filter.Hottest!.Part);
        Assert.True(Demo.Filter.WorstHeatW > Demo.Filter.HeatW);

        // 50 V assumed on C3, which bears 374 V at the worst phase: 50 W x (50/374)^2.
        double worst = Demo.Filter.WorstStress!.Parts.Where(static p => p.Part[0] == 'C').Max(static p => p.PeakVoltageV);
        Assert.Equal(50 * Math.Pow(50 / worst, 2), Demo.Filter.VoltageBearsW!.Value, 1e-9);
    }

    // The same circuit with a capacitor from port to port, solved by nodal analysis, in place of added admittances.
    [Fact]
    public void Isolation_equals_the_circuit_with_a_capacitor_across()
    {
        Circuit across = Filter with
        {
            Parts = [.. Filter.Parts, Open("Copen", Filter.PortIn, Filter.PortOut)],
        };
        CircuitTwoPort with = new(CircuitSolver.Create(across)), alone = new(CircuitSolver.Create(Filter));
        BypassedFilter bypassed = new(alone, 0.8e-12, 0);
        double least = double.PositiveInfinity;
        for (double hz = 1e6; hz <= 1e9; hz *= 1.0005)
        {
            Complex expected = with.At(hz).S21;
            Assert.Equal(0, (expected - bypassed.At(hz).S21).Magnitude, 1e-9);
            if (alone.At(hz).InsertionLossDb >= 2.9 + 20)
            {
                least = Math.Min(least, with.At(hz).InsertionLossDb);
            }
        }

        Assert.Equal(least, Demo.Filter!.Isolation!.LossDb, 0.1);
        Assert.True(Demo.Filter.Isolation.LossDb < Demo.Filter.Isolation.AloneDb);
    }

    // Through line, a capacitor from it to either port of the filter: nodal analysis and its stress, in place of the two-port's algebra.
    [Fact]
    public void ShareWhileOver_equals_the_heat_of_the_circuit_hung_on_the_line()
    {
        Circuit hung = Filter with
        {
            Parts =
            [
                .. Filter.Parts, Open("Ca", "line", Filter.PortIn), Open("Cb", "line", Filter.PortOut),
                new Resistor { Name = "Rthrough", From = "line", To = "far", Resistance = PartValue.Known(1e-6) },
            ],
            PortIn = "line",
            PortOut = "far",
        };
        StressResult? stress = StressAnalysis.TryRun(
            CircuitSolver.Create(hung), new StressRequest(50, 145.65e6, StressLoad.Matched), out _);
        double heat = stress!.Parts.Where(static p => p.Part is not ("Ca" or "Cb" or "Rthrough")).Sum(static p => p.DissipationW);
        Assert.Equal(heat, 50 * Demo.Filter!.ShareWhileOver, 1e-4 * heat);
    }

    [Fact]
    public void Ask_demo_sum_off_the_air_is_that_of_the_voltages()
    {
        // Levels of the demo's table at the antenna, added as voltages by hand.
        double[] dbm = [-44, -24.5, -25, -31, -33, -34, -35, -33, -30, -31, -36, -48, -35, -41, -52, -38, -43];
        Assert.Equal(20 * Math.Log10(dbm.Sum(static d => Math.Pow(10, d / 20))), Demo.OffAir!.SumDbm!.Value, 1e-9);
        Assert.Equal(("repeater input", 17), (Demo.OffAir.Receiver, Demo.OffAir.Counted));
    }

    [Fact]
    public void Ask_coil_that_wants_more_than_there_is_has_no_figures()
    {
        BypassAnswer none = Ask(Text.Replace("operates_at: 8.4 V", "operates_at: 11.9 V", StringComparison.Ordinal));
        Assert.True(none is
        {
            OperatesAtW: null, ReleasesBelowW: null, StrongestOffAirDbm: null, Press: { AttackS: null, HangS: null }, Trials.Count: 0,
        });
        Assert.Null(none.Keyed.LeadS);
    }

    [Fact]
    public void Ask_without_filter_or_site_leaves_their_figures_out()
    {
        BypassAnswer bare = Ask(Text.Replace("filter: ", "# ", StringComparison.Ordinal).Replace("site: ", "# ", StringComparison.Ordinal));
        Assert.True(bare is { Filter: null, OffAir: null, Press.AttackS: not null });
    }

    [Fact]
    public void Ask_low_power_stays_in_the_filter()
    {
        BypassAnswer low = Ask(Text.Replace("power: 50 W", "power: 5 mW", StringComparison.Ordinal));
        Assert.True(low is { Press.AttackS: null, Press.HangS: null, OperatesAtW: > 0.005, Trials.Count: 0 });
    }

    [Fact]
    public void Ask_speech_at_full_power_chatters_where_the_relay_is_quick_and_says_which_smoothing_stops_it()
    {
        BypassAnswer quick = Ask(Text.Replace("travel: 3 ms", "travel: 0.2 ms", StringComparison.Ordinal)
            .Replace("release_travel: 2 ms", "release_travel: 0.1 ms", StringComparison.Ordinal)
            .Replace("inductance: 0.4 H", "inductance: 2 mH", StringComparison.Ordinal)
            .Replace("smoothing: 10 nF", "smoothing: 1 nF", StringComparison.Ordinal)
            .Replace("power: 50 W", "power: 50 mW", StringComparison.Ordinal));
        KeyingTrial slow = quick.Trials.First(static t => t.ApartHz == 100);
        Assert.InRange(slow.WentBack, 95, 101); // a null each 10 ms
        Assert.NotNull(quick.Steadier);
        BypassDocumentWith(quick, quick.Steadier.SmoothingF);

        static void BypassDocumentWith(BypassAnswer answer, double smoothingF)
        {
            LoadedBypass bypass = answer.Question.Bypass;
            LoadedBypass steadier = bypass with
            {
                Document = bypass.Document with { Circuit = bypass.Document.Circuit with { SmoothingF = smoothingF } },
            };
            BypassAnswer again = BypassService.Ask(new BypassQuestion { Bypass = steadier }).Answer!;
            Assert.All(again.Trials.Take(2), static t => Assert.False(t.Chatters));
        }
    }

    [Fact]
    public void Chain_bypass_puts_filter_and_contacts_in_line()
    {
        string path = DemoSites.PathOf("quernmoss-filtered.site.yaml");
        string text = File.ReadAllText(path);
        Assert.Contains("circuit: filters/three-tank.circuit.yaml", text, StringComparison.Ordinal);
        StudyResult plain = Study(text), relay = Study(
            text.Replace("circuit: filters/three-tank.circuit.yaml", "bypass: quernmoss.bypass.yaml", StringComparison.Ordinal));

        // On channel the contacts' 0.1 dB, and what the capacitance across does there; far off the open contacts let more through.
        double own = At(relay, "haulage base") - At(plain, "haulage base");
        Circuit across = Filter with
        {
            Parts = [.. Filter.Parts, Open("Copen", Filter.PortIn, Filter.PortOut)],
        };
        double expected = new CircuitTwoPort(CircuitSolver.Create(Filter)).At(153.35e6).InsertionLossDb
            - new CircuitTwoPort(CircuitSolver.Create(across)).At(153.35e6).InsertionLossDb - 0.1;
        Assert.Equal(expected, own, 0.02); // the feedline ahead is matched, the receiver nominally so

        StudyResult Study(string site)
        {
            LoadedSite? loaded = SiteLoader.Load(site, path, new SiteFolder(path), out IReadOnlyList<Diagnostic> all);
            Assert.True(loaded is not null, string.Join('\n', all));
            return StudyService.Run(loaded, new StudyOptions(), null, TestContext.Current.CancellationToken);
        }

        static double At(StudyResult study, string emitter) =>
            study.Receivers[0].Carriers.First(c => c.Emitter == emitter).LevelAtReceiverDbm!.Value;
    }

    /// <summary>Whatever the reader lets through is answered or refused: parts of any size, each in its own range.</summary>
    [Fact]
    [Trait("Category", "Long")]
    public void Ask_parts_of_any_size_answers_or_refuses()
    {
        Random random = new(2111);
        double Any(double least, double most) => least * Math.Pow(most / least, random.NextDouble());
        LoadedBypass demo = Demo.Question.Bypass with { Filter = null, Site = null };
        int answered = 0;
        for (int i = 0; i < 60; i++)
        {
            RelayCircuit circuit = demo.Document.Circuit with
            {
                Detector = new RelayDetector
                {
                    FrequencyHz = Math.Round(Any(1e4, 1e10)),
                    TapF = Any(1e-15, 1),
                    Rectifier = i % 2 == 0 ? Rectifier.Doubler : Rectifier.Single,
                    Diode = new Diode(Any(1e-18, 1e-3), Any(0.5, 5), Any(1e-4, 1e9), Any(1e-15, 1)),
                },
                SmoothingF = Any(1e-15, 1),
                BleedOhm = Any(1e-4, 1e9),
                Coil = new RelayCoil(Any(1e-4, 1e9), Any(1e-15, 1000), 8.4, 1.2, Any(1e-9, 10), Any(1e-9, 10), 0.7),
            };
            LoadedBypass bypass = demo with { Document = demo.Document with { Circuit = circuit, PowerW = Any(1e-6, 1e5) } };
            Outcome<BypassAnswer> outcome = BypassService.Ask(
                new BypassQuestion { Bypass = bypass, TriesKeying = i % 10 == 0 }, null, TestContext.Current.CancellationToken);
            Assert.True(outcome.Answer is not null || outcome.Problem.Length > 0);
            answered += outcome.Answer is null ? 0 : 1;
            Assert.True(outcome.Answer is null || double.IsFinite(outcome.Answer.Press.CoilA), circuit.ToString());
        }

        Assert.True(answered >= 40, $"{answered} of 60");
    }

    [Fact]
    public void Load_filter_of_another_impedance_is_refused_at_its_place()
    {
        DiagnosticBag bag = new();
        string text = Text.Replace("impedance: 50 ohm", "impedance: 75 ohm", StringComparison.Ordinal);
        Assert.Null(SourceReader.Bypass(SourceFile.OfText("demo/b.bypass.yaml", text, new SiteFolder(Path)), bag));
        Assert.Contains("the filter's ports are of 50 and 50 ohm, the line is of 75 ohm; write", Assert.Single(bag.InOrder()).ToString(),
            StringComparison.Ordinal);
    }
}
