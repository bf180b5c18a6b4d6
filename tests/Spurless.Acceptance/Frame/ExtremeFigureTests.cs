using System.Text.RegularExpressions;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Frame;

/// <summary>
/// What the reader lets pass the engine takes. Every figure of a file goes to the far ends of what makes sense and beyond: beyond is
/// refused at its line with what to write instead; where <c>check</c> has nothing to say, the other commands run, and no writer prints what
/// is no number.
/// </summary>
public sealed partial class ExtremeFigureTests : IDisposable
{
    // Slots: <name|usual value|unit>.
    private const string Site = """
        spurless: 1
        site: at the ends of sense
        place: { latitude: 40.5, longitude: -35.2, ground: <ground|410 m|length> }
        receivers:
          - name: first
            frequency: <frequency|145.050 MHz|frequency>
            channel: <channel|12.5 kHz|frequency>
            if_bandwidth: <if_bandwidth|8 kHz|frequency>
            sensitivity: <sensitivity|0.25 uV pd|level>
            iip2: <iip2|40 dBm|level>
            iip3: <iip3|-8 dBm|level>
            selectivity: [0 dB at 145 MHz, <selectivity|25 dB|decibels> at 160 MHz]
            external_noise: <external_noise|6 dB|decibels>
            antenna: { gain: <gain|6 dBd|gain>, height: <height|20 m|length> }
            wanted: <wanted|-105 dBm|level>
            squelch_opens: <squelch_opens|7 dB|decibels>
            spoils_within: <spoils_within|8 dB|decibels>
            common_uncertainty: <common|0 dB|decibels>
            superhet: { first_if: <first_if|21.4 MHz|frequency>, injection: low, second_if: <second_if|455 kHz|frequency> }
            blocking: <blocking|84 dB|decibels>
            adjacent: <adjacent|70 dB|decibels>
            lo_noise: <lo_noise|-140 dBc/Hz|density> at <lo_offset|1 MHz|frequency>
            chain:
              - feedline: { loss: <loss|1.2 dB|decibels> at 145 MHz }
              - attenuator: <attenuator|3 dB|decibels>
              - amplifier: { gain: <amplifier|15 dB|decibels>, noise_figure: <noise_figure|1.5 dB|decibels>, iip3: <stage|5 dBm|level> }
          - name: second
            frequency: 145.600 MHz
            channel: 12.5 kHz
            noise_figure: <receiver_noise|6 dB|decibels>
            intermod_rejection: { by: <rejection|70 dB|decibels>, method: tia603 }
        emitters:
          - { name: near, frequency: 152.55 MHz, bandwidth: 16 kHz, power: 25 W, distance: 1 km }
          - name: far
            frequency: <carrier|160.05 MHz|frequency>
            bandwidth: <bandwidth|16 kHz|frequency>
            power: <power|25 W|power>
            feedline: <feedline|2 dB|decibels>
            antenna: { gain: <emitter_gain|6 dBd|gain>, height: <emitter_height|30 m|length> }
            distance: <distance|650 m|length>
            bearing: 210
            isolator: <isolator|25 dB|decibels>
            turn_round_loss: <turn_round|12 dB|decibels>
            noise: <noise|-145 dBc/Hz|density> at <noise_offset|1 MHz|frequency>
            harmonics: [<harmonic|-70 dBc|ratio> at 2]
            uncertainty: <uncertainty|6 dB|decibels>
          - { name: measured, frequency: 145.65 MHz, emission: <emission|11K2F3E|emission>, level: <level|-44 dBm|level> }
          - { name: pager, frequency: 466.075 MHz, bandwidth: 16 kHz, eirp: <eirp|100 W|power>, distance: 3 km }
        search: { orders: 2-5, signals: 3, floor: <floor|-150 dBm|level> }
        """;

    private const string Circuit = """
        spurless_circuit: 1
        name: at the ends of sense
        ports: { in: a, out: d, impedance: <port|50 ohm|ohms> }
        parts:
          C1: { capacitor: <capacitor|6.8 pF|farads>, between: [a, b], q: <q|400|plain> at 145.05 MHz, tolerance: 5 % }
          L1: { inductor: <inductor|27.6 nH|henries>, between: [b, gnd], q: 160 at <q_at|145.05 MHz|frequency> }
          R1: { resistor: <resistor|10 ohm|ohms>, between: [b, c] }
          W1: { line: { impedance: <line_ohm|75 ohm|ohms>, length: <line|0.34 m|length>,
                velocity: <velocity|0.66|plain>, loss: <line_loss|0.1 dB/m|per length> at 145 MHz }, between: [c, d] }
        """;

    private static readonly Dictionary<string, string[]> Values = new()
    {
        ["frequency"] = ["1 Hz", "300 GHz", "301 GHz", "9000 THz", "9223372036854775807 Hz", "1 kHz"],
        ["level"] = ["-300 dBm", "300 dBm", "-1100 dBm", "1000 dBm", "1e300 dBm", "-250 dBm", "200 dBm"],
        ["decibels"] = ["0 dB", "300 dB", "-300 dB", "301 dB", "1e9 dB", "100 dB", "1e-300 dB"],
        ["gain"] = ["-100 dBi", "100 dBi", "1e6 dBi"],
        ["length"] = ["1 nm", "100000 km", "1e300 m", "1e-300 m", "10 km", "100 km", "0 m", "-1 km"],
        ["power"] = ["1e-21 W", "1 GW", "1e-300 W", "1e300 W", "-300 dBm"],
        ["density"] = ["-300 dBc/Hz", "300 dBc/Hz", "-1e6 dBc/Hz", "0 dBc/Hz"],
        ["ratio"] = ["-300 dBc", "0 dBc", "-1e6 dBc"],
        ["emission"] = ["999GF3E", "H001N0N", "999MF3E", "1K00N0N"],
        ["ohms"] = ["1e-320 ohm", "1 nohm", "1000 Tohm", "1e300 ohm", "1e-9 ohm"],
        ["farads"] = ["1e-320 F", "0.001 fF", "1 F", "1e300 F"],
        ["henries"] = ["1e-320 H", "1 fH", "1000 H", "1e300 H"],
        ["per length"] = ["0 dB/m", "1000 dB/m", "1e300 dB/m"],
        ["plain"] = ["1e-320", "1e-9", "1e300", "0.01", "1"],
    };

    private readonly WorkFolder _folder = new();

    public static TheoryData<string, string> SiteCases => Cases(Site);

    public static TheoryData<string, string> CircuitCases => Cases(Circuit);

    public void Dispose() => _folder.Dispose();

    [Theory]
    [Trait("Category", "Long")]
    [MemberData(nameof(SiteCases))]
    public Task Site_at_the_ends_of_sense_is_refused_at_its_line_or_studied_in_every_format(string slot, string value) =>
        RefusedOrRuns(Site, slot, value, "x.site.yaml", "study");

    [Theory]
    [Trait("Category", "Long")]
    [MemberData(nameof(CircuitCases))]
    public Task Circuit_at_the_ends_of_sense_is_refused_at_its_line_or_computed_in_every_format(string slot, string value) =>
        RefusedOrRuns(Circuit, slot, value, "x.circuit.yaml", "response");

    [Theory]
    [InlineData(Site, "carrier", "9000 THz", "x.site.yaml")]
    [InlineData(Site, "iip3", "-1100 dBm", "x.site.yaml")]
    [InlineData(Site, "floor", "1000 dBm", "x.site.yaml")]
    [InlineData(Site, "channel", "9000 THz", "x.site.yaml")]
    [InlineData(Circuit, "resistor", "1e-320 ohm", "x.circuit.yaml")]
    [InlineData(Circuit, "line", "100 km", "x.circuit.yaml")]
    public async Task Check_tells_a_figure_beyond_sense_with_its_line_and_what_to_write(
        string template, string slot, string value, string name)
    {
        string text = Filled(template, slot, value);
        File.WriteAllText(_folder[name], text);
        int line = 1 + Array.FindIndex(text.Split('\n'), l => l.Contains(value, StringComparison.Ordinal));
        (int status, string _, string error) = await CapturedTerminal.RunAsync("check", _folder[name]);
        Assert.Equal(1, status);
        Assert.Matches($"{Regex.Escape(name)}:{line}:\\d+: .*(beyond all sense|too high for a receiver).*; write ", error);
    }

    private static TheoryData<string, string> Cases(string template)
    {
        TheoryData<string, string> cases = [];
        foreach (Match slot in Slot().Matches(template))
        {
            foreach (string value in Values[slot.Groups[3].Value])
            {
                cases.Add(slot.Groups[1].Value, value);
            }
        }

        return cases;
    }

    private static string Filled(string template, string slot, string value) =>
        Slot().Replace(template, m => m.Groups[1].Value == slot ? value : m.Groups[2].Value);

    private async Task RefusedOrRuns(string template, string slot, string value, string name, string command)
    {
        File.WriteAllText(_folder[name], Filled(template, slot, value));
        (int status, string _, string error) = await CapturedTerminal.RunAsync("check", _folder[name]);
        if (status != 0)
        {
            Assert.Equal(1, status);
            Assert.Matches(Regex.Escape(name) + @":[1-9]\d*:\d+: .+; .+", error);
            return;
        }

        foreach (string format in (string[])["text", "json", "csv", "html"])
        {
            (int ran, string output, string told) = await CapturedTerminal.RunAsync(command, _folder[name], "--format", format);
            Assert.True(ran == 0, $"{command} --format {format}: status {ran} {told}");
            // The end of a Smith chart's axis is marked so on purpose.
            Assert.DoesNotMatch(NoNumber(), output.Replace(">\u221E</text>", "", StringComparison.Ordinal));
            if (format == "json")
            {
                using System.Text.Json.JsonDocument parsed = System.Text.Json.JsonDocument.Parse(output);
            }
        }
    }

    [GeneratedRegex(@"<([\w]+)\|([^|>]*)\|([\w ]+)>", RegexOptions.CultureInvariant, 5000)]
    private static partial Regex Slot();

    [GeneratedRegex(@"(?<![\w.])-?(NaN|Infinity|\u221E|inf)(?!\w)", RegexOptions.CultureInvariant, 5000)]
    private static partial Regex NoNumber();
}
