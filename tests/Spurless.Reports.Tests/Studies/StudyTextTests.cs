using Spurless.Files.Diagnostics;
using Spurless.Mixing.Causes;
using Spurless.Reports.Studies;
using Spurless.Reports.Text;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Studies;

/// <summary>The text: the answer first, then the table, then what to do, then the rest.</summary>
public sealed class StudyTextTests
{
    private const int FirstScreen = 40;

    private static string[] Lines(StudyResult study)
    {
        using StringWriter text = new();
        StudyText.Write(study, text, TextInk.None);
        return text.ToString().Split('\n');
    }

    private static StudyResult Demo(string name)
    {
        DirectoryInfo folder = new(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Spurless.slnx")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("Spurless.slnx");
        }

        DiagnosticBag findings = new();
        SourceFile file = SourceFile.Read(Path.Combine(folder.FullName, "demo", name + ".site.yaml"), FileKind.Site, findings)!;
        return StudyService.Ask(new StudyQuestion { Site = SourceReader.Site(file, findings)! }).Answer!;
    }

    [Theory]
    [InlineData("quernmoss-filtered", "With the filter in, five of the six harmful mixtures")]
    [InlineData("quernmoss", "Six mixtures land on 145.0500 MHz over the noise;")]
    public void Write_demo_begins_with_the_conclusion_and_fits_the_first_screen_down_to_what_to_do(string demo, string begins)
    {
        string[] lines = Lines(Demo(demo));

        Assert.StartsWith(begins, lines[4], StringComparison.Ordinal);
        Assert.StartsWith("repeater input, 145.0500 MHz, channel 12.5 kHz, noise ", lines[2], StringComparison.Ordinal);
        Assert.Equal("", lines[3]); // the heading is one line
        int table = Array.FindIndex(lines, static l => l.StartsWith("what it does", StringComparison.Ordinal));
        int todo = Array.IndexOf(lines, "What to do, and what to measure");
        int rest = Array.IndexOf(lines, "More of it");
        Assert.True(table > 4 && todo > table && rest > todo, $"table {table}, to do {todo}, rest {rest}");
        Assert.True(rest <= FirstScreen, $"the rest begins at line {rest}");
        Assert.All(lines, static l => Assert.True(l.Length <= TextFlow.DefaultWidth, l));
    }

    [Fact]
    public void Write_shows_what_each_does_with_its_sigma_and_the_share_of_time()
    {
        ProductFinding product = DemoStudy.Product(-125, -125, Mechanism.Transmitter, "regional paging", ("regional paging", 1),
            ("waterworks base", -2)) with
        { OnTogether = 0.15 };
        string[] lines = Lines(DemoStudy.WithoutFilter() with { Receivers = [DemoStudy.Receiver(false, [product])] });

        // 3.9 dB over the noise: under the squelch's 7.5 dB; 10 lg(1 + 10^0.39) = 5.4 dB.
        Assert.Contains(lines, static l => l.StartsWith("costs 5.4 dB", StringComparison.Ordinal) && l.Contains("  7.5  ",
            StringComparison.Ordinal));
        Assert.Contains(lines, static l => l.EndsWith("possible, 15 % of the time", StringComparison.Ordinal));
    }

    [Fact]
    public void Write_says_in_the_row_that_a_level_is_not_trustworthy()
    {
        ProductFinding product = DemoStudy.Product(-85, -85, Mechanism.Transmitter, "regional paging", ("regional paging", 1),
            ("waterworks base", -2)) with
        {
            Assumed = [new Assumption(AssumptionKind.Saturated) { Of = "repeater input", Value = -19.6 }],
        };
        string text = string.Join(' ', Lines(DemoStudy.WithoutFilter() with
        {
            Receivers = [DemoStudy.Receiver(false,
            [product])]
        }).Select(static l => l.Trim()));
        Assert.Contains("transmitter of the regional paging; likely; level not trustworthy: capped at what that stage can deliver", text,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Write_lists_the_assumptions_of_other_causes_too()
    {
        CauseFinding noise = new()
        {
            Cause = CauseKind.TransmitterNoise,
            Emitter = "haulage base",
            LevelDbm = -120,
            OverNoiseDb = 8.94,
            SigmaDb = 2,
            Assumed = [new Assumption(AssumptionKind.NoiseAtOneOffset) { Of = "haulage base", FromHz = 1_000_000, ToHz = 1_080_000 }],
        };
        string text = Joined(DemoStudy.Receiver(false, []) with { OtherCauses = [new OtherCause(noise, Verdict.Harmful)] });
        Assert.Contains("the one figure given, at 1.0 MHz, taken at 1.08 MHz too", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_says_that_emitters_which_exclude_each_other_do_not_add()
    {
        ReceiverFindings receiver = DemoStudy.WithoutFilter().Receivers[0];
        Assert.Contains("All mixtures together stand", Joined(receiver), StringComparison.Ordinal);
        Assert.Contains(
            "The mixtures that can be on the air together (some of the emitters never are) stand at most",
            Joined(receiver with { SumOfSome = true }),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Write_tells_the_sensitivity_at_the_antenna_before_and_after()
    {
        // -128.94 dBm of noise, 7.5 dB to 12 dB SINAD, 1.2 dB of feedline; the filter's 2.92 dB.
        string text = Joined(DemoStudy.WithFilter().Receivers[0]);
        Assert.Contains(
            "12 dB SINAD takes -117.3 dBm at the antenna connector; without the filter -120.2 dBm", text, StringComparison.Ordinal);
    }

    private static string Joined(ReceiverFindings receiver) => string.Join(
        ' ', Lines(DemoStudy.WithoutFilter() with { Receivers = [receiver] }).Select(static l => l.Trim()));

    [Fact]
    public void Parted_keeps_three_sentences_and_loses_nothing()
    {
        Assert.Equal(("A is 1.5 dB. B. C.", "D. E."), StudyText.Parted("A is 1.5 dB. B. C. D. E."));
        Assert.Equal(("A. B.", ""), StudyText.Parted("A. B."));
    }

    [Fact]
    public void Gaps_are_at_most_five_lines_and_the_sixth_is_counted()
    {
        ReceiverFindings receiver = DemoStudy.Receiver(false, []) with
        {
            NotComputed = [.. Enum.GetValues<NotComputedKind>().SelectMany(static k => (NotComputed[])[new(k, ["a"], ["x"]), new(k, ["b"],
                ["y"])])],
        };
        IReadOnlyList<string> lines = GapWords.Of(receiver);

        // Six kinds, each twice: one line a kind, four shown and two counted.
        Assert.Equal(GapWords.Most, lines.Count);
        Assert.Contains("a and b", lines[0], StringComparison.Ordinal);
        Assert.StartsWith("Two more kinds of figures", lines[^1], StringComparison.Ordinal);
    }
}
