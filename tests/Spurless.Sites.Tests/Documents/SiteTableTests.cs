using System.Collections;
using System.Globalization;
using System.Reflection;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Tests.Documents;

/// <summary>A table of emitters says the same as the list in the site file.</summary>
public sealed class SiteTableTests
{
    private const string Head =
        "spurless: 1\nsite: s\nreceivers: [{ name: in, frequency: 145 MHz, channel: 12.5 kHz, noise_figure: 6 dB, iip3: -8 dBm }]\n";

    private const string Yaml = Head + """
        emitters:
          - { name: a, frequency: 160.5125 MHz, emission: 11K2F3E, level: -21 dBm, activity: 15 % }
          - name: b
            frequency: 466.075 MHz
            bandwidth: 16 kHz
            level: { in: -33.5 dBm }
            power: 100 W
            feedline: 2 dB
            antenna: { gain: 6 dBd, height: 30 m, bearing: 40, beamwidth: 65 }
            at: { latitude: 40.503, longitude: -35.19 }
            path: hata suburban
            isolator: [55 dB at 158.3 MHz, 30 dB at 171.55 MHz]
            output_filter: f.s2p
            turn_round_loss: 12 dB
            coupling: { a: 45 dB }
            noise: -145 dBc/Hz at 1 MHz
            harmonics: [-70 dBc at 2, -80 dBc at 3]
            uncertainty: 6 dB
            noise_like: true
            follows: in
        """;

    private const string Csv =
        "# from a spreadsheet\n"
        + "name;frequency;emission;bandwidth;level;level.in;activity;power;feedline;antenna.gain;antenna.height;"
        + "antenna.bearing;antenna.beamwidth;at.latitude;"
        + "at.longitude;path;isolator;output_filter;turn_round_loss;coupling.a;noise;harmonics;uncertainty;noise_like;follows\n"
        + "a;160.5125 MHz;11K2F3E;;-21 dBm;;15 %;;;;;;;;;;;;;;;;;;\n"
        + "b;466.075 MHz;;16 kHz;;-33.5 dBm;;100 W;2 dB;6 dBd;30 m;40;65;40.503;"
        + "-35.19;hata suburban;[55 dB at 158.3 MHz, 30 dB at 171.55 MHz];f.s2p;12 dB;45 dB;-145 dBc/Hz at 1 MHz;"
        + "[-70 dBc at 2, -80 dBc at 3];6 dB;true;in";

    [Fact]
    public void Read_table_gives_the_same_emitters_as_the_list()
    {
        StubFiles files = new(
            ("f.s2p", ""),
            (
                "e.csv",
                Csv
                    .Replace(";level;level.in;", ";level;", StringComparison.Ordinal)
                    .Replace("-21 dBm;;15", "-21 dBm;15", StringComparison.Ordinal)
                    .Replace("16 kHz;;-33.5 dBm", "16 kHz;{ in: -33.5 dBm }", StringComparison.Ordinal)));
        SiteReading list = SiteReader.Read(Yaml, "s", files);
        SiteReading table = SiteReader.Read(Head + "emitters_from: e.csv\n", "s", files);
        Assert.Equal("", string.Join("\n", list.Diagnostics.Concat(table.Diagnostics)));
        Assert.Equal(list.Document!.Emitters.Select(Dump), table.Document!.Emitters.Select(Dump));
    }

    [Fact]
    public void Read_table_with_a_column_in_two_ways_is_refused()
    {
        SiteReading table = SiteReader.Read(Head + "emitters_from: e.csv\n", "s", new StubFiles(("f.s2p", ""), ("e.csv", Csv)));
        Assert.Contains(
            "e.csv:2:41: the heads 'level' and 'level.in' are two ways of saying one thing; keep one of the two",
            table.Diagnostics.Select(d => d.ToString()));
    }

    [Fact]
    public void Read_bad_table_is_reported_in_the_table()
    {
        const string Bad =
            "name,frequecy,frequency,emission,bandwidth,level\nx,1,160,11K2F3E,,-20 dBm\ny,,161 "
                + "MHz,11K2F3E,11 kHz,-20 dBm\nx,,162 MHz,11K2Z3E,,-20\n";
        SiteReading table = SiteReader.Read(Head + "emitters_from: e.csv\n", "s", new StubFiles(("e.csv", Bad)));
        Assert.Equal(
            [
                "e.csv:1:6: unknown key 'frequecy'; write 'frequency'",
                "e.csv:2:5: '160' has no unit; write 160 MHz",
                "e.csv:3:20: 'bandwidth' and 'emission' are two ways of saying one thing; keep one of the two",
                "e.csv:4:1: the name 'x' belongs to the emitter of line 2 already; give this emitter another name",
                "e.csv:4:12: '11K2Z3E' has 'Z' as character 5: the first symbol, the modulation, "
                    + "is one of NAHRBCJFGDPKLMQVWX; write it like 11K2F3E",
                "e.csv:4:21: '-20' has no unit; write -20 dBm",
            ],
            table.Diagnostics.Select(d => d.ToString()));
    }

    /// <summary>Everything that an entry says, without where it stands.</summary>
    private static string Dump(object? value) => value switch
    {
        null => "-",
        EntrySource => "",
        FileReference f => f.Path,
        string s => s,
        IDictionary d => string.Join(",", d.Keys.Cast<object>().Select(k => $"{k}={Dump(d[k])}")),
        IEnumerable e => "[" + string.Join(",", e.Cast<object?>().Select(Dump)) + "]",
        IFormattable or bool or Enum => Convert.ToString(value, CultureInfo.InvariantCulture)!,
        _ when value.GetType().IsValueType => value.ToString()!,
        _ =>
            "{"
                + string.Join(
                    ";",
                    value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance)
                        .Where(p => p.GetIndexParameters().Length == 0)
                        .Select(p => p.Name + "=" + Dump(p.GetValue(value))))
                + "}",
    };
}
