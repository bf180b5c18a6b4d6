using System.Globalization;
using Spurless.Bench.Studies;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Bench.Newcomers;

/// <summary>A newcomer with three transmitters at a site of many, beside one study of the joint site.</summary>
public static class NewcomerRows
{
    private const int Emitters = 100;
    private const int Receivers = 10;
    private static readonly TimeSpan Budget = TimeSpan.FromSeconds(5);

    private const string Newcomer = """
        spurless: 1
        site: newcomer
        emitters:
          - name: new one
            frequency: 151.275 MHz
            emission: 11K2F3E
            power: 10 W
            level: -25 dBm
            turn_round_loss: 12 dB
            coupling: { new two: 30 dB }
          - { name: new two, frequency: 156.7625 MHz, emission: 11K2F3E, power: 10 W, level: -25 dBm }
          - { name: new three, frequency: 162.025 MHz, emission: 11K2F3E, power: 10 W, level: -25 dBm }
        """;

    /// <summary>The rows.</summary>
    public static IReadOnlyList<BenchRow> All { get; } =
    [
        new BenchRow(
            "Newcomer", $"3 transmitters to {Emitters} emitters, {Receivers} receivers, with what makes each pass", "<= 10 s",
            static _ => Ask()),
    ];

    private static BenchResult Ask()
    {
        SiteFolder nothing = new("made.site.yaml");
        DiagnosticBag findings = new();
        NewcomerSites sites = NewcomerReader.Read(
            SourceFile.OfText("made.site.yaml", StudySite.Text(Emitters, Receivers), nothing),
            SourceFile.OfText("new.site.yaml", Newcomer, nothing), findings)
            ?? throw new InvalidOperationException(string.Join('\n', findings.InOrder()));
        NewcomerAnswer? answer = null;
        double seconds = Timing.Best(
            () => answer = NewcomerService.Ask(new NewcomerQuestion { Sites = sites }).Answer, Budget);
        double study = Timing.Best(() => StudyService.Run(sites.Joint, new StudyOptions()), Budget);
        int fail = answer?.Receivers.Count(static r => !r.Passes) ?? 0;
        return new BenchResult(
            Timing.Text(seconds), Timing.Text(study), string.Create(CultureInfo.InvariantCulture, $"{seconds / study:0.0}"), seconds <= 10,
            string.Create(
                CultureInfo.InvariantCulture,
                $"beside: one study of the joint site; {fail} of {Receivers} receivers fail, ")
                + string.Create(CultureInfo.InvariantCulture, $"{answer?.Receivers.Sum(static r => r.Needs.Count)} needs"));
    }
}
