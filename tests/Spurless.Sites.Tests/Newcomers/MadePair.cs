using System.Globalization;
using System.Text;

namespace Spurless.Sites.Tests.Newcomers;

/// <summary>
/// An invented site and a newcomer by chance, as texts: apart, and together in one file. Carriers share a raster round the receivers, so
/// that mixtures hit; some levels, powers and couplings are missing, and the newcomer's maps name the site's receivers and emitters.
/// </summary>
internal sealed class MadePair
{
    private const string Head = "spurless: 1\nsite: invented\n";

    private readonly Random _random;
    private readonly List<string> _siteReceivers = [];
    private readonly List<string> _siteEmitters = [];

    public MadePair(int seed)
    {
        _random = new Random(seed);
        string search = $"search: {{ orders: 2-{_random.Next(3, 6)}, signals: {_random.Next(2, 4)} }}\n";
        string[] siteReceivers = [.. Enumerable.Range(1, _random.Next(1, 4)).Select(i => Receiver($"r{i}", _siteReceivers))];
        string[] siteEmitters = [.. Enumerable.Range(1, _random.Next(2, 6)).Select(i => Emitter($"e{i}", [], _siteEmitters))];
        List<string> newReceivers = [], newEmitters = [];
        string[] receivers = [.. Enumerable.Range(1, _random.Next(0, 3)).Select(i => Receiver($"nr{i}", newReceivers))];
        int emitters = _random.Next(receivers.Length == 0 ? 1 : 0, 4);
        string[] alone = [.. Enumerable.Range(1, emitters).Select(i => Emitter($"ne{i}", newReceivers, newEmitters))];
        // The same emitters with what their maps say of the site, which their own study has no use for.
        string[] joined = [.. alone.Select(e => e.Replace(" }\n", Joined(e) + " }\n", StringComparison.Ordinal))];
        string group = _siteEmitters.Count > 1 && _random.Next(3) == 0 ? $"[{_siteEmitters[0]}, {_siteEmitters[1]}]" : "";
        string newGroup = newEmitters.Count > 0 && _random.Next(3) == 0 ? $"[{_siteEmitters[0]}, {newEmitters[0]}]" : "";
        Site = Text(siteReceivers, siteEmitters, group) + search;
        // The newcomer's own limits do not count: the site's do.
        Newcomer = Text(receivers, joined, newGroup) + "search: { orders: 2-2, signals: 1 }\n";
        Alone = receivers.Length == 0 ? null : Text(receivers, alone, "") + search;
        Joint = Text([.. siteReceivers, .. receivers], [.. siteEmitters, .. joined], group, newGroup) + search;
    }

    /// <summary>The site.</summary>
    public string Site { get; }

    /// <summary>The newcomer's file.</summary>
    public string Newcomer { get; }

    /// <summary>The newcomer as a site by itself; null where it has no receiver.</summary>
    public string? Alone { get; }

    /// <summary>Both in one site file.</summary>
    public string Joint { get; }

    private static string Text(string[] receivers, string[] emitters, params string[] groups)
    {
        StringBuilder text = new(Head);
        string[] exclusive = [.. groups.Where(static g => g.Length > 0)];
        text.Append(receivers.Length == 0 ? "" : "receivers:\n" + string.Concat(receivers));
        text.Append(emitters.Length == 0 ? "" : "emitters:\n" + string.Concat(emitters));
        return text.Append(exclusive.Length == 0 ? "" : $"exclusive: [{string.Join(", ", exclusive)}]\n").ToString();
    }

    private string Receiver(string name, List<string> names)
    {
        names.Add(name);
        string plan = _random.Next(3) == 0 ? ", superhet: { first_if: 0.4 MHz, injection: low }" : "";
        string blocking = _random.Next(3) == 0 ? ", blocking: 80 dB" : "";
        string oscillator = _random.Next(3) == 0 ? ", lo_noise: [-130 dBc/Hz at 25 kHz, -150 dBc/Hz at 2 MHz]" : "";
        return FormattableString.Invariant($"  - {{ name: {name}, frequency: {Megahertz()} MHz, channel: 12.5 kHz, noise_figure: 6 dB, ")
            + FormattableString.Invariant($"iip3: {_random.Next(-15, 10)} dBm, selectivity: [0 dB at 145 MHz, 3 dB at 145.4 MHz]")
            + plan + blocking + oscillator + (_random.Next(4) == 0
                ? ", chain: [{ amplifier: { gain: 12 dB, noise_figure: 2 dB, iip3: 5 dBm } }]"
                : "")
            + " }\n";
    }

    private string Emitter(string name, List<string> ownReceivers, List<string> names)
    {
        names.Add(name);
        string level = _random.Next(6) == 0 ? "" : FormattableString.Invariant($", level: {_random.Next(-60, -10)} dBm");
        string power = _random.Next(4) == 0 ? "" : ", power: 10 W";
        string turn = _random.Next(3) == 0 ? "" : ", turn_round_loss: 12 dB";
        string isolator = _random.Next(3) == 0 ? ", isolator: 20 dB" : "";
        string noise = _random.Next(3) == 0
            ? FormattableString.Invariant($", noise: [{_random.Next(-150, -100)} dBc/Hz at 10 kHz, -160 dBc/Hz at 2 MHz]")
            : "";
        string coupling = names.Count < 2 || _random.Next(3) == 0 ? "" : $", coupling: {{ {names[0]}: 40 dB }}";
        string follows = ownReceivers.Count > 0 && _random.Next(4) == 0 ? $", follows: {ownReceivers[0]}" : "";
        // On one mast: then each arrives at the other's output by their heights.
        string mast = _random.Next(2) == 0 ? "" : FormattableString.Invariant($", antenna: {{ height: {_random.Next(10, 60)} m }}, ")
            + "path: { same structure: { vertical: 3 m, horizontal: 0 m } }";
        string like = _random.Next(5) == 0 ? ", noise_like: true" : "";
        return FormattableString.Invariant($"  - {{ name: {name}, frequency: {Megahertz()} MHz, bandwidth: {_random.Next(3) * 8} kHz")
            + level + power + turn + isolator + noise + coupling + follows + mast + like + " }\n";
    }

    private string Joined(string emitter) =>
        (_random.Next(4) == 0 ? $", half_duplex: {_siteReceivers[_random.Next(_siteReceivers.Count)]}" : "")
        + (_random.Next(2) == 0 && !emitter.Contains("coupling", StringComparison.Ordinal)
            ? $", coupling: {{ {_siteEmitters[_random.Next(_siteEmitters.Count)]}: 35 dB }}"
            : "");

    private string Megahertz() => (145 + (0.0125 * _random.Next(0, 48))).ToString("0.0000", CultureInfo.InvariantCulture);
}
