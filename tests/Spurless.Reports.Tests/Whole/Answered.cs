using System.Collections.Concurrent;
using System.Text;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Response;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bench;
using Spurless.Reports.Bypasses;
using Spurless.Reports.Cures;
using Spurless.Reports.Html;
using Spurless.Reports.Locating;
using Spurless.Reports.Mixes;
using Spurless.Reports.Newcomers;
using Spurless.Reports.Plans;
using Spurless.Reports.Receivers;
using Spurless.Reports.Responses;
using Spurless.Reports.Studies;
using Spurless.Reports.Text;
using Spurless.Sites.Bypasses;
using Spurless.Sites.Coils;
using Spurless.Sites.Comparisons;
using Spurless.Sites.Cures;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;
using Spurless.Sites.Mixes;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Plans;
using Spurless.Sites.Receivers;
using Spurless.Sites.Responses;
using Spurless.Sites.Sources;
using Spurless.Sites.Stresses;
using Spurless.Sites.Studies;
using Spurless.Sites.Tolerances;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Whole;

/// <summary>An answer of every service that needs no measured signal, asked once, with names that no format may trip over.</summary>
internal static class Answered
{
    /// <summary>Names as strangers write them: a formula, an element, a quote, a comma.</summary>
    public const string Formula = "=1+1", Element = "<b>base</b> & co", Quoted = "say \"so\", again";

    public static ReportContext Context { get; } = new()
    {
        GeneratedAt = new DateTimeOffset(2031, 3, 4, 5, 6, 7, TimeSpan.FromHours(1)),
        ProgramVersion = "0.1.0",
        Notice = "invented",
    };

    // Small and everything in it: an amplifier, a level that is not known, mixing in a transmitter, two receivers.
    private const string SiteText = """
        spurless: 1
        site: "Small <site>, invented"
        receivers:
          - name: "=1+1"
            frequency: 145.050 MHz
            channel: 12.5 kHz
            if_bandwidth: 8 kHz
            noise_figure: 6 dB
            iip2: 30 dBm
            iip3: -2 dBm
            chain:
              - feedline: { loss: 1.2 dB at 145 MHz }
              - amplifier: { gain: 12 dB, noise_figure: 1 dB, iip3: 5 dBm, iip2: 30 dBm }
          - name: second input
            frequency: 433.000 MHz
            channel: 12.5 kHz
            if_bandwidth: 8 kHz
            noise_figure: 6 dB
            iip3: -10 dBm
        emitters:
          - name: "<b>base</b> & co"
            frequency: 158.300 MHz
            emission: 11K2F2D
            power: 2 W
            level: { "=1+1": -31 dBm, second input: -35 dBm }
            turn_round_loss: 12 dB
            coupling: { "say \"so\", again": 45 dB }
          - name: "say \"so\", again"
            frequency: 171.550 MHz
            emission: 11K2F3E
            power: 5 W
            level: -33 dBm
          - { name: silent base, frequency: 151.675 MHz, emission: 11K2F3E }
          - { name: far base, frequency: 160.525 MHz, emission: 11K2F3E, level: -50 dBm }
        search: { orders: 2-3, signals: 2 }
        """;

    private static readonly ConcurrentDictionary<string, Lazy<Task<string>>> _pages = new();

    private static readonly Lazy<SourceFile> _source = new(static () => Text(SiteText));

    public static Lazy<LoadedSite> Site { get; } = new(static () => Load(_source.Value));

    public static Lazy<StudyResult> Study { get; } = new(static () => StudyService.Run(Site.Value, new StudyOptions()));

    public static Lazy<StudyComparison> Comparison { get; } = new(static () => ComparisonService.Ask(new ComparisonQuestion
    {
        Now = Site.Value,
        Before = Load(Text(SiteText.Replace("-33 dBm", "-40 dBm", StringComparison.Ordinal))),
    }).Answer!);

    public static Lazy<CureAnswer> Cure { get; } = new(static () =>
        CureService.Ask(new CureQuestion { Site = Site.Value, Source = _source.Value }).Answer!);

    public static Lazy<PlanAnswer> Plan { get; } = new(static () => PlanService.Ask(new PlanQuestion
    {
        Site = Site.Value,
        Receiver = Formula,
        FromHz = 145_000_000,
        ToHz = 145_200_000,
        RasterHz = 12_500,
        Count = 2,
    }).Answer!);

    public static Lazy<LocateAnswer> Locate { get; } = new(static () =>
    {
        SourceFile file = Text(SiteText + """

            evidence:
              - attenuator_test: { receiver: "=1+1", inserted: 6 dB, at: antenna, over_noise: 30 dB, fall: 6 dB, plus_minus: 1 dB }
            """);
        return LocateService.Ask(new LocateQuestion { Site = Load(file) }).Answer!;
    });

    public static Lazy<NewcomerAnswer> Newcomer { get; } = new(static () =>
    {
        string path = DemoSites.PathOf("newcomer-dale-link.site.yaml");
        DiagnosticBag findings = new();
        SourceFile site = SourceFile.Read(DemoSites.PathOf("quernmoss-cured.site.yaml"), FileKind.Site, findings)!;
        SourceFile newcomer = SourceFile.OfText(path, File.ReadAllText(path).Replace(
            "dale link one", "\"<b>base</b> & co\"", StringComparison.Ordinal), site.Folder);
        return NewcomerService.Ask(new NewcomerQuestion { Sites = NewcomerReader.Read(site, newcomer, findings)! }).Answer!;
    });

    public static Lazy<ReceiverAnswer> Receiver { get; } = new(static () =>
    {
        string path = DemoSites.PathOf("quernmoss.receiver.yaml");
        return ReceiverService.Ask(new ReceiverQuestion
        {
            Measurements = SourceReader.Measurements(SourceFile.OfText(path, File.ReadAllText(path), new SiteFolder(path)),
                new DiagnosticBag())!,
        });
    });

    public static Lazy<BypassAnswer> Bypass { get; } = new(static () =>
    {
        string path = DemoSites.PathOf("quernmoss.bypass.yaml");
        return BypassService.Ask(new BypassQuestion
        {
            Bypass = SourceReader.Bypass(SourceFile.OfText(path, File.ReadAllText(path), new SiteFolder(path)), new DiagnosticBag())!,
        }).Answer!;
    });

    public static Lazy<StressAnswer> Stress { get; } = new(static () => StressService.Ask(new StressQuestion
    {
        Circuit = Filter(),
        PowerW = 10,
        FrequencyHz = 145e6,
        Load = StressLoad.Swr(2),
    }).Answer!);

    public static Lazy<ToleranceAnswer> Tolerance { get; } = new(static () => ToleranceService.Ask(new ToleranceQuestion
    {
        Circuit = Filter(),
        Samples = 100,
        Others = new OtherTolerance(PartTolerance.Uniform(0.05), "5 %"),
    }).Answer!);

    public static Lazy<ResponseAnswer> Response { get; } = new(static () =>
    {
        Circuit circuit = Filter();
        CircuitTwoPort network = new(CircuitSolver.Create(circuit));
        return new ResponseAnswer
        {
            Result = ResponseCalculator.Compute(network, circuit.Name, ResponseCalculator.DefaultFrequencies(network, 145e6)),
            Network = network,
            Circuit = circuit,
        };
    });

    public static Lazy<CoilAnswer> Coil { get; } = new(static () => CoilService.Ask(new AirCoilQuestion
    {
        Turns = 5,
        DiameterM = 7e-3,
        LengthM = 8e-3,
        WireM = 1e-3,
        LeadM = 4e-3,
        FrequencyHz = 145e6,
    }).Answer!);

    public static Lazy<MixAnswer> Mix { get; } = new(static () => MixService.Ask(
        new MixQuestion
        {
            FrequencyHz = 145_050_000,
            WithinHz = 100_000,
            CarriersHz = [158_300_000, 171_550_000, 160_525_000],
            Orders = (2, 5),
            Signals = 3,
        },
        null,
        CancellationToken.None).Answer!);

    /// <summary>Every answer as text for a terminal.</summary>
    public static IReadOnlyDictionary<string, Action<TextWriter>> Texts { get; } = new Dictionary<string, Action<TextWriter>>
    {
        ["study"] = static to => StudyText.Write(Study.Value, to, TextInk.None),
        ["comparison"] = static to => ComparisonText.Write(Comparison.Value, to, TextInk.None),
        ["cure"] = static to => CureWriter.WriteText(Cure.Value, to, TextInk.None),
        ["plan"] = static to => PlanWriter.WriteText(Plan.Value, to, TextInk.None),
        ["locate"] = static to => LocateWriter.WriteText(Locate.Value, to, TextInk.None),
        ["newcomer"] = static to => NewcomerText.Write(Newcomer.Value, to, TextInk.None),
        ["receiver"] = static to => ReceiverWriter.WriteText(Receiver.Value, [], to, TextInk.None),
        ["bypass"] = static to => BypassWriter.WriteText(Bypass.Value, to, TextInk.None),
        ["stress"] = static to => StressWriter.WriteText(Stress.Value, to, TextInk.None),
        ["tolerance"] = static to => ToleranceWriter.WriteText(Tolerance.Value, to, TextInk.None),
        ["response"] = static to => ResponseWriter.WriteText(Response.Value, to, TextInk.None),
        ["coil"] = static to => CoilWriter.WriteText(Coil.Value, to, TextInk.None),
        ["mix"] = static to => MixWriter.WriteText(Mix.Value, to, TextInk.None),
    };

    /// <summary>Every answer as JSON.</summary>
    public static IReadOnlyDictionary<string, Action<Stream>> Jsons { get; } = new Dictionary<string, Action<Stream>>
    {
        ["study"] = static to => StudyJson.Write(Study.Value, to),
        ["comparison"] = static to => ComparisonJson.Write(Comparison.Value, to),
        ["cure"] = static to => CureWriter.WriteJson(Cure.Value, to),
        ["plan"] = static to => PlanWriter.WriteJson(Plan.Value, to),
        ["locate"] = static to => LocateWriter.WriteJson(Locate.Value, to),
        ["newcomer"] = static to => NewcomerWriter.WriteJson(Newcomer.Value, to),
        ["receiver"] = static to => ReceiverWriter.WriteJson(Receiver.Value, [], to),
        ["bypass"] = static to => BypassWriter.WriteJson(Bypass.Value, to),
        ["stress"] = static to => StressWriter.WriteJson(Stress.Value, to),
        ["tolerance"] = static to => ToleranceWriter.WriteJson(Tolerance.Value, to),
        ["response"] = static to => ResponseWriter.WriteJson(Response.Value, to),
        ["coil"] = static to => CoilWriter.WriteJson(Coil.Value, to),
        ["mix"] = static to => MixWriter.WriteJson(Mix.Value, to),
    };

    /// <summary>Every answer as comma-separated values.</summary>
    public static IReadOnlyDictionary<string, Action<TextWriter>> Csvs { get; } = new Dictionary<string, Action<TextWriter>>
    {
        ["study"] = static to => StudyCsv.Write(Study.Value, to),
        ["cure"] = static to => CureWriter.WriteCsv(Cure.Value, to),
        ["plan"] = static to => PlanWriter.WriteCsv(Plan.Value, to),
        ["locate"] = static to => LocateWriter.WriteCsv(Locate.Value, to),
        ["newcomer"] = static to => NewcomerWriter.WriteCsv(Newcomer.Value, to),
        ["receiver"] = static to => ReceiverWriter.WriteCsv(Receiver.Value, to),
        ["bypass"] = static to => BypassWriter.WriteCsv(Bypass.Value, to),
        ["stress"] = static to => StressWriter.WriteCsv(Stress.Value, to),
        ["tolerance"] = static to => ToleranceWriter.WriteCsv(Tolerance.Value, to),
        ["response"] = static to => ResponseWriter.WriteCsv(Response.Value, to),
        ["coil"] = static to => CoilWriter.WriteCsv(Coil.Value, to),
        ["mix"] = static to => MixWriter.WriteCsv(Mix.Value, to),
    };

    /// <summary>Every answer that has a report, as its page.</summary>
    public static IReadOnlyDictionary<string, Func<Task<string>>> Pages { get; } = new Dictionary<string, Func<Task<string>>>
    {
        ["study"] = static () => StudyReport.RenderAsync(Study.Value, Context),
        ["cure"] = static () => CureReport.RenderAsync(Cure.Value, Context),
        ["plan"] = static () => PlanReport.RenderAsync(Plan.Value, Context),
        ["locate"] = static () => LocateReport.RenderAsync(Locate.Value, Context),
        ["newcomer"] = static () => NewcomerReport.RenderAsync(Newcomer.Value, Context),
        ["receiver"] = static () => Spurless.Reports.Receivers.ReceiverReport.RenderAsync(Receiver.Value, [], Context),
        ["bypass"] = static () => BypassReport.RenderAsync(Bypass.Value, Context),
        ["stress"] = static () => BenchReport.RenderAsync(BenchSheetInput.Of(Stress.Value), Context),
        ["tolerance"] = static () => BenchReport.RenderAsync(BenchSheetInput.Of(Tolerance.Value), Context),
        ["response"] = static () => ResponseReport.RenderAsync(Response.Value, Context),
    };

    /// <summary>The page of an answer, rendered once.</summary>
    public static Task<string> PageOf(string answer) => _pages.GetOrAdd(answer, static a => new Lazy<Task<string>>(Pages[a])).Value;

    public static string TextOf(string answer) => Written(Texts[answer]);

    public static string CsvOf(string answer) => Written(Csvs[answer]);

    public static string JsonOf(string answer)
    {
        using MemoryStream to = new();
        Jsons[answer](to);
        return Encoding.UTF8.GetString(to.ToArray());
    }

    /// <summary>The tank filter with hostile names.</summary>
    public static Circuit Filter()
    {
        Circuit circuit = Topologies.Of("ladder");
        return circuit with
        {
            Name = Element,
            Parts =
            [
                .. circuit.Parts.Select(static (p, i) => i switch
                {
                    0 => p with { Name = Formula },
                    1 => p with { Name = Quoted },
                    _ => p,
                }),
            ],
        };
    }

    private static string Written(Action<TextWriter> write)
    {
        using StringWriter to = new();
        write(to);
        return to.ToString();
    }

    private static SourceFile Text(string text)
    {
        string path = DemoSites.PathOf("small.site.yaml");
        return SourceFile.OfText(path, text, new SiteFolder(path));
    }

    private static LoadedSite Load(SourceFile file)
    {
        LoadedSite? site = SiteLoader.Load(file, out IReadOnlyList<Diagnostic> findings);
        Assert.True(site is not null, string.Join('\n', findings));
        return site;
    }
}
