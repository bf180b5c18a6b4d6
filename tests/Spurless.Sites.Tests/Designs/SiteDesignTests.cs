using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Cures;
using Spurless.Sites.Designs;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Requirements;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Designs;

/// <summary>A filter for the invented demo site, put into its chain and studied.</summary>
public class SiteDesignTests
{
    private const string Demo = "quernmoss.site.yaml";

    [Fact]
    public void Run_from_the_demo_site_gives_three_filters_that_quiet_it()
    {
        LoadedSite site = Load(File.ReadAllText(TestData.Demo(Demo)), []);
        DiagnosticBag findings = new();
        DesignBrief brief = DesignBrief.Of(site, Demo, new SiteDesignOptions(), new DesignOptions { MostCandidates = 5 }, findings)!;
        Assert.False(findings.HasErrors);
        DesignReading reading = DesignService.Run(brief with { Question = brief.Question with { Samples = 500, TunedSpecimens = 60 } });
        DesignedFile[] meet = [.. reading.Files.Where(static f => f.Candidate.Meets)];
        Assert.True(
            meet.Length >= 3, string.Join('\n', reading.Files.Select(static f => $"{f.Candidate.Family} {f.Candidate.WorstMarginDb}")));
        Assert.True(meet[0].Candidate.WorstPassLossDb < 3);
        Assert.True(meet[0].Candidate.Tuned!.Yield > 0.9);

        foreach (DesignedFile file in meet.Take(3))
        {
            const string first = "      - feedline:";
            string text = File.ReadAllText(TestData.Demo(Demo));
            Assert.Contains(first, text, StringComparison.Ordinal);
            text = text.Replace(first, $"      - circuit: {file.FileName}\n{first}", StringComparison.Ordinal);
            LoadedSite loaded = Load(text, new() { [file.FileName] = file.Text });
            ReceiverFindings found = StudyService.Run(loaded, new StudyOptions(), null, CancellationToken.None).Receivers[0];
            string[] loud =
            [
                .. found.Products.Where(static p => p.Mechanism == Mechanism.Receiver && p.Verdict is Verdict.Harmful or Verdict.Marginal)
                    .Select(static p => $"{p.OverNoiseDb:0.0} {string.Join(' ', p.Terms.Select(static t => $"{t.Coefficient}*{t.Name}"))}"),
            ];
            Assert.True(loud.Length == 0, $"{file.Candidate.Family}: {string.Join("; ", loud)}");
        }
    }

    // Just under harmful, and none can be lowered by a decibel alone.
    [Fact]
    public void Of_needs_are_enough_and_none_is_a_decibel_too_much()
    {
        LoadedSite loaded = Load(File.ReadAllText(TestData.Demo(Demo)), []);
        ReceiverFindings found = StudyService.Run(loaded, new StudyOptions(), null, CancellationToken.None).Receivers[0];
        ReceiverNeeds needs = ReceiverNeeds.Of(found);
        Assert.NotEmpty(needs.Carriers);
        Dictionary<string, double> taken = needs.Carriers.ToDictionary(static c => c.Emitter, static c => c.AttenuationDb);
        Assert.True(Worst(taken) <= 0, $"{Worst(taken)} dB over");
        foreach (CarrierAttenuation c in needs.Carriers)
        {
            Dictionary<string, double> less = new(taken) { [c.Emitter] = c.AttenuationDb - 1 };
            Assert.True(Worst(less) > 0, $"{c.Emitter} has a decibel too much");
        }

        double Worst(Dictionary<string, double> by) => found.Products
            .Where(
                p =>
                    p.Mechanism == Mechanism.Receiver
                        && p.OverNoiseDb is not null
                        && p.Terms.Any(t => found.Carriers[t.Emitter].Follows != found.Name))
            .Max(p => p.OverNoiseDb!.Value - p.Terms.Where(t => found.Carriers[t.Emitter].Follows != found.Name)
                .Sum(t => Math.Abs(t.Coefficient) * by.GetValueOrDefault(t.Name)));
    }

    [Fact]
    public void Requirement_of_a_site_reads_back_as_the_question()
    {
        LoadedSite site = Load(File.ReadAllText(TestData.Demo(Demo)), []);
        DiagnosticBag findings = new();
        DesignOptions options = new() { TransmitW = 25, BypassOpenF = 0.8e-12 };
        DesignBrief brief = DesignBrief.Of(site, Demo, new SiteDesignOptions(), options, findings)!;
        Circuits.Requirements.Requirement? read = RequirementReader.Read(
            DesignedCircuitFile.Requirement(brief), "needs.requirement.yaml", findings);
        Assert.True(read is not null, string.Join('\n', findings.InOrder()));
        RequirementFile needs = new(read, new SourceFile("needs.requirement.yaml", [], new StubFiles()));
        DesignBrief again = DesignBrief.Of(needs, new DesignOptions(), findings)!;
        Assert.Equal(brief.Question.Reject, again.Question.Reject);
        Assert.Equal(brief.Question.PassFromHz, again.Question.PassFromHz, 1.0);
        Assert.Equal(brief.Question.PassToHz, again.Question.PassToHz, 1.0);
        Assert.Equal(brief.Question.TransmitW, again.Question.TransmitW);
        Assert.Equal(0.8e-12, again.Question.BypassOpenF!.Value, 1e-18);
        Assert.Equal(brief.Question.Parts.Series, again.Question.Parts.Series);
    }

    [Fact]
    public void Of_an_unknown_receiver_names_those_there_are()
    {
        DiagnosticBag findings = new();
        Assert.Null(
            DesignBrief.Of(
                Load(File.ReadAllText(TestData.Demo(Demo)), []),
                Demo,
                new SiteDesignOptions { Receiver = "other" },
                new DesignOptions(),
                findings));
        Assert.Contains("repeater input", Assert.Single(findings.InOrder()).ToString(), StringComparison.Ordinal);
    }

    private static LoadedSite Load(string text, Dictionary<string, string> further)
    {
        LoadedSite? site = SiteLoader.Load(text, Demo, new Beside(further), out IReadOnlyList<Diagnostic> findings);
        Assert.True(site is not null, string.Join('\n', findings));
        return site;
    }

    private sealed class Beside(Dictionary<string, string> further) : ISiteFiles
    {
        public bool Exists(string path) => further.ContainsKey(path) || File.Exists(TestData.Demo(path));

        public byte[]? Read(string path) =>
            further.TryGetValue(path, out string? text) ? Encoding.UTF8.GetBytes(text) : File.ReadAllBytes(TestData.Demo(path));

        public string NameOf(string path) => path;
    }
}
