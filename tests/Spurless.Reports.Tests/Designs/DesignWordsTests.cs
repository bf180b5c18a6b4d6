using Spurless.Circuits.Coils;
using Spurless.Circuits.Parts;
using Spurless.Design.Designing;
using Spurless.Design.Optimising;
using Spurless.Design.Questions;
using Spurless.Design.Tuning;
using Spurless.Design.Winding;
using Spurless.Reports.Designs;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Designs;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Designs;

/// <summary>What a design comes to, in words: never surer than its figures.</summary>
public sealed class DesignWordsTests
{
    private static readonly DesignQuestion _question = new()
    {
        Name = "invented",
        PassFromHz = 144.9e6,
        PassToHz = 145.2e6,
        MostLossDb = 3.5,
        Reject = [new(153.35e6, 153.35e6, 18)],
    };

    [Theory]
    [InlineData(0, "0 %")]
    [InlineData(0.0001, "1 %")]
    [InlineData(0.5, "50 %")]
    [InlineData(0.994, "99 %")]
    [InlineData(0.9999, "99 %")]
    [InlineData(1, "100 %")]
    public void Percent_of_builds_is_all_or_none_only_where_it_is(double share, string said) =>
        Assert.Equal(said, DesignWords.Percent(share));

    // What is to spare is rounded down: 0.019 dB are 0.01, and what is missing by 0.001 dB is missing by 0.01.
    [Theory]
    [InlineData(0.019, "0.01")]
    [InlineData(1.5, "1.50")]
    [InlineData(0, "0.00")]
    [InlineData(-0.001, "-0.01")]
    public void Down_never_says_more_to_spare_than_there_is(double db, string said) => Assert.Equal(said, DesignWords.Down(db));

    [Theory]
    [InlineData(1, 1, "The one circuit found meets what is asked.")]
    [InlineData(3, 1, "One of three circuits meets what is asked.")]
    [InlineData(3, 2, "Two of three circuits meet what is asked.")]
    [InlineData(12, 12, "12 of 12 circuits meet what is asked.")]
    public void Answer_counts_what_meets_and_warns_of_transmitting(int all, int meets, string begins)
    {
        string says = DesignWords.Answer(Reading([.. Enumerable.Range(0, all).Select(i => Candidate(i < meets ? 2.0 : 4.0))]));
        Assert.StartsWith(begins, says, StringComparison.Ordinal);
        Assert.Contains("1.50 dB to spare", says, StringComparison.Ordinal);
        Assert.EndsWith("Do not transmit through it.", says, StringComparison.Ordinal);
        WrittenText.Agree(says);
    }

    [Theory]
    [InlineData(1, "No circuit of the one family tried meets it.")]
    [InlineData(5, "No circuit of the five families tried meets it.")]
    public void Answer_where_nothing_meets_says_what_is_missing_and_proves_nothing(int families, string begins)
    {
        string says = DesignWords.Answer(Reading([Candidate(4.0)], families));
        Assert.StartsWith(begins, says, StringComparison.Ordinal);
        Assert.Contains("loses 4.00 dB at 145.2 MHz, 0.50 too much", says, StringComparison.Ordinal);
        Assert.Contains("no proof that no filter does", says, StringComparison.Ordinal);
        WrittenText.Agree(says);
    }

    [Fact]
    public void Answer_of_nothing_and_of_a_search_that_was_stopped_says_so()
    {
        Assert.Equal(
            "Nothing was found. It was stopped early: this is the best so far.", DesignWords.Answer(Reading([], 0, complete: false)));
        Assert.EndsWith(
            "It was stopped early: this is the best so far.",
            DesignWords.Answer(Reading([Candidate(2.0)], 3, complete: false)),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Step_says_what_to_hold_what_to_turn_and_what_then_stands_there()
    {
        TuningStep step = new(1, TuningReading.ReflectionDelay, ["C2"], "b", null, 145.05e6, 104.4e-9, []);
        Assert.Equal(
            "Short node b to ground. Sweep S11, read its group delay. Turn C2 until the delay is even about 145.05 MHz; "
                + "its top then stands at 104 ns.",
            DesignWords.Step(step));
        Assert.EndsWith("its bottom then stands at -966 ns.", DesignWords.Step(step with { Expected = -966e-9 }), StringComparison.Ordinal);
        TuningStep mesh = step with { ShortNode = null, OpenPart = "L2" };
        Assert.StartsWith("Lift one end of L2. ", DesignWords.Step(mesh), StringComparison.Ordinal);
        Assert.Equal(
            "Nothing shorted. Sweep S21. Turn C5, then C2, C4 a little until the notch stands at 153.35 MHz, 42 dB deep.",
            DesignWords.Step(step with
            {
                ShortNode = null,
                Reading = TuningReading.Notch,
                Adjust = ["C5", "C2", "C4"],
                AtHz = 153.35e6,
                Expected = 42.2,
            }));
    }

    // One winding, two inductors of the circuit: each is told what it is, and nobody is told to move the one against the other.
    [Fact]
    public void A_tapped_coil_is_listed_as_one_winding_with_its_tap()
    {
        DesignCandidate tapped = Candidate(2.0) with
        {
            Circuit = Tapped,
            Coils =
            [
                new WoundCoil("L1", 80e-9, 82e-9, 3e-3, new CoilGeometry(8, 3.8e-3, 8.4e-3, 0.8e-3, 3e-3), 250, 0.2e-12)
                {
                    Tap = new CoilTapPoint("L2", "M12", 1.55),
                },
            ],
            Strays = [new("L1", "L3", 0.0252, 0.0012, 0.0023)],
        };
        DesignReading reading = Reading([tapped]);
        string[] take = [.. Tapped.Parts.Select(p => DesignWriter.Take(p, tapped, reading.Brief))];
        Assert.StartsWith("8 turns of 0.8 mm wire on a 3 mm rod", take[0], StringComparison.Ordinal);
        Assert.EndsWith(", tapped 1.55 turns from its cold end", take[0], StringComparison.Ordinal);
        Assert.Equal("the 1.55 turns of L1 below its tap", take[1]);
        Assert.Equal("between the two parts of L1, as wound", take[2]);
        string[] layout = [.. DesignWords.Layout(tapped)];
        Assert.Contains(layout, static l => l.StartsWith("L1: solder the tap", StringComparison.Ordinal));
        Assert.DoesNotContain(layout, static l => l.StartsWith("M12", StringComparison.Ordinal));
        Assert.Contains("L1 and L3 at 25 mm by 0.0012 (0.0023)", layout[0], StringComparison.Ordinal);
        Assert.Contains(DesignWords.Assumed(reading), static a => a.StartsWith("both parts of a tapped coil", StringComparison.Ordinal));
        using MemoryStream json = new();
        DesignWriter.WriteJson(reading, json);
        System.Text.Json.JsonElement root = System.Text.Json.JsonDocument.Parse(json.ToArray()).RootElement;
        Assert.Equal(1.55, root.GetProperty("candidates")[0].GetProperty("coils")[0].GetProperty("tap_turns").GetDouble());
    }

    [Fact]
    public void Every_format_of_a_reading_lists_the_same_candidates()
    {
        DesignReading reading = Reading([Candidate(2.0), Candidate(4.0)], 2);
        using StringWriter text = new(), csv = new();
        using MemoryStream json = new();
        DesignWriter.WriteText(reading, text, TextInk.None);
        DesignWriter.WriteCsv(reading, csv);
        DesignWriter.WriteJson(reading, json);
        WrittenText.Sound(text.ToString());
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        System.Text.Json.JsonElement root = System.Text.Json.JsonDocument.Parse(json.ToArray()).RootElement;
        Assert.Equal(["true", "false"], rows.Skip(1).Select(static r => r[2]));
        Assert.Equal(
            [true, false], root.GetProperty("candidates").EnumerateArray().Select(static c => c.GetProperty("meets").GetBoolean()));
        Assert.Equal("two tanks, top capacitors", rows[1][1]);
        Assert.Contains("loses 4.00 dB", text.ToString(), StringComparison.Ordinal);
    }

    private static Circuit Tapped { get; } = new()
    {
        Name = "tapped",
        PortIn = "a",
        PortOut = "a",
        ImpedanceOhm = 50,
        Parts =
        [
            new Inductor
            {
                Name = "L1",
                From = "b",
                To = "a",
                Inductance = PartValue.Known(60e-9),
                Loss = PartLoss.QualityFactor(180, 146e6),
            },
            new Inductor
            {
                Name = "L2",
                From = "a",
                To = Circuit.Ground,
                Inductance = PartValue.Known(9e-9),
                Loss = PartLoss.QualityFactor(180, 146e6),
            },
            new Coupling { Name = "M12", First = "L1", Second = "L2", Coefficient = PartValue.Known(0.2) },
        ],
    };

    private static DesignReading Reading(DesignCandidate[] candidates, int families = 4, bool complete = true) => new(
        new DesignBrief(_question, "invented.requirement.yaml", null, []),
        new DesignAnswer(
            _question, candidates, [.. Enumerable.Range(0, families).Select(static i => ($"family {i}", 1.0 - i))], null, complete),
        [.. candidates.Select(static (c, i) => new DesignedFile(i + 1, c, FormattableString.Invariant($"{i + 1}.circuit.yaml"), ""))]);

    private static DesignCandidate Candidate(double loss) => new()
    {
        Family = "two tanks, top capacitors",
        Circuit = Topologies.Of("ladder"),
        Findings =
        [
            new DemandFinding(0, DemandKind.PassLoss, 144.9e6, 145.2e6, 145.2e6, 3.5, loss),
            new DemandFinding(1, DemandKind.Rejection, 153.35e6, 153.35e6, 153.35e6, 18, 23),
        ],
        Meets = loss <= 3.5,
        Coils = [],
        Spots = [],
    };
}
