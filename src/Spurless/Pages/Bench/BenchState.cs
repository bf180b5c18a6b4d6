using Spurless.Circuits.Measured;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Circuits.Tolerance;
using Spurless.Reports.Bench;
using Spurless.Sites.Documents;
using Spurless.Sites.Responses;
using Spurless.Sites.Stresses;
using Spurless.Sites.Tolerances;
using Spurless.Workbench.Bench;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Bench;

/// <summary>
/// Asks the services for what the bench page shows: used by the page and by its downloads alike. It decides what is shown; it computes
/// nothing itself.
/// </summary>
internal sealed class BenchState
{

    private BenchState(CircuitBench bench, BenchAddress address) => (Bench, Address) = (bench, address);

    /// <summary>The circuit on the bench.</summary>
    public CircuitBench Bench { get; }

    /// <summary>What is shown.</summary>
    public BenchAddress Address { get; private set; }

    /// <summary>The frame of the pictures; null where the circuit as its file has it cannot be drawn.</summary>
    public BenchFrame? Frame { get; private init; }

    /// <summary>The circuit with values in force.</summary>
    public TunedCircuit Tuned { get; private set; } = null!;

    /// <summary>The pictures; null where there are none.</summary>
    public BenchPicture? Picture { get; private set; }

    /// <summary>What transmitting does to it; null where it cannot be told.</summary>
    public StressResult? Stress { get; private set; }

    /// <summary>What tolerances do to it, of the values for which it was last asked; null where it was not.</summary>
    public ToleranceResult? Spread { get; private set; }

    /// <summary>The site whose needs are the mask; null for none.</summary>
    public string? Site { get; private init; }

    /// <summary>Power transmitted, in watts.</summary>
    public double PowerW => Address.PowerW ?? StressQuestion.UsualPowerW;

    /// <summary>Frequency transmitted on, in hertz.</summary>
    public double TransmitHz { get; private init; }

    /// <summary>The state of an address.</summary>
    /// <param name="shelf">The folder's circuits.</param>
    /// <param name="bench">The circuit.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="address">What is to be shown.</param>
    /// <param name="needs">What the chosen site needs, where it is known already.</param>
    /// <param name="last">The site shown last in this tab; null for none.</param>
    public static BenchState Of(
        BenchShelf shelf, CircuitBench bench, OpenFolder folder, BenchAddress address, SiteNeeds? needs, string? last = null)
    {
        string? site = SiteOf(folder, bench, address, last);
        MeasuredTwoPort? sweep = address.Sweep is { } name ? shelf.Sweep(name) : null;
        (string Name, CircuitTwoPort? Circuit, MeasuredTwoPort? Sweep)? beside = address.Beside is { } other
            && other != bench.Document.File ? shelf.Beside(other) : null;
        address = address with { Beside = beside?.Name };
        address = address with { Settings = address.Settings.Known(bench.Items), Sweep = sweep is null ? null : address.Sweep };
        TunedCircuit file = bench.With(DeskSettingsOfFile);
        SiteDocument? document = site is null ? null : folder.Site(site)?.Site?.Document;
        EmitterEntry? own = document?.Emitters.FirstOrDefault(
            e => e.Follows == document.Receivers[Math.Clamp(address.Receiver, 0, document.Receivers.Count - 1)].Name);
        BenchFrame? frame = file.Network is { } network ? BenchFrame.Of(network, bench.Circuit.Name, needs, address.Sweep, sweep, beside)
            : null;
        BenchState state = new(bench, address)
        {
            Site = site,
            Frame = frame,
            TransmitHz = address.TransmitHz
                ?? own?.Frequency.Hertz
                ?? needs?.Receiver.FrequencyHz
                ?? frame?.ChannelHz
                ?? (frame is null ? 145e6 : Middle(frame, file)),
        };
        state.Move(address);
        state.Load();
        return state;
    }

    /// <summary>
    /// The site that the address names, else the one shown last, else one whose chain holds this circuit, else the first; null for none.
    /// </summary>
    public static string? SiteOf(OpenFolder folder, CircuitBench bench, BenchAddress address, string? last = null)
    {
        string[] sites = [.. folder.FilesOf(Sites.Sources.FileKind.Site).Select(static f => f.Name)];
        return address.Site is { } asked ? sites.Contains(asked) ? asked : null
            : last is not null && sites.Contains(last) ? last
            : sites.FirstOrDefault(
                s =>
                    folder.Site(s)?.Site?.Document is { } d
                        && d.Receivers.Any(r => r.Chain.OfType<CircuitStage>().Any(c => Beside(s, c.Circuit.Path) == bench.Document.File)))
                ?? sites.FirstOrDefault();
    }

    /// <summary>Values moved: circuit and pictures follow at once. A band of tolerances is that of other values now and goes.</summary>
    public void Move(BenchAddress address)
    {
        bool same = Tuned is not null && address.Settings.Equals(Address.Settings);
        Address = address;
        if (!same)
        {
            Tuned = Bench.With(address.Settings);
            Spread = null;
        }

        Picture = Frame is { } frame && Tuned!.Network is { } network ? BenchPicture.Of(frame, network, Spread) : null;
    }

    /// <summary>What transmitting does, for the values, power, frequency and load in force.</summary>
    public void Load() => Stress = Tuned.Network is null ? null : StressService.Ask(new StressQuestion
    {
        Circuit = Tuned.Circuit,
        PowerW = PowerW,
        FrequencyHz = Address.TransmitHz ?? TransmitHz,
        Load = Address.Swr > 1 ? StressLoad.Swr(Address.Swr) : StressLoad.Matched,
    }).Answer?.Result;

    /// <summary>What tolerances do to the values in force: the parts' own, and that of the address for those that state none.</summary>
    /// <returns>The result; null where none is asked for or it cannot be told.</returns>
    public ToleranceResult? Scatter(IProgress<double>? progress, CancellationToken cancel)
    {
        if (Frame is not { } frame || Tuned.Network is null || Address.SpreadPercent <= 0)
        {
            return null;
        }

        ToleranceQuestion question = new()
        {
            Circuit = Tuned.Circuit,
            Others = new OtherTolerance(
                PartTolerance.Uniform(Address.SpreadPercent / 100), FormattableString.Invariant($"{Address.SpreadPercent} %")),
            Frequencies = FrequencyChoice.At(BenchPicture.SpreadFrequencies(frame)),
            Samples = ToleranceQuestion.QuickSamples,
            Advise = false,
        };
        return ToleranceService.Ask(question, progress, cancel).Answer?.Result;
    }

    /// <summary>Lays a band over the pictures.</summary>
    public void Lay(ToleranceResult? spread)
    {
        Spread = spread;
        Move(Address);
    }

    private static Spurless.Workbench.Desk.DeskSettings DeskSettingsOfFile => Spurless.Workbench.Desk.DeskSettings.None;

    private static double Middle(BenchFrame frame, TunedCircuit file) => BenchPicture.Of(frame, file.Network!)?.Best.Hertz ?? 145e6;

    private static string Beside(string site, string path) =>
        NamesInFolder.Beside(site) + path;
}
