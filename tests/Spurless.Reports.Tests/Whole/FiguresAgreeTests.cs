using System.Globalization;
using System.Text.Json;

namespace Spurless.Reports.Tests.Whole;

/// <summary>
/// One figure is said the same everywhere: what a table on a page or in a text prints is the JSON's figure of the same row, to the last
/// digit printed.
/// </summary>
public sealed class FiguresAgreeTests
{
    private static readonly Dictionary<string, IReadOnlyList<PrintedTable>> _tables = [];

    /// <summary>
    /// Where it stands, which answer, the head of the table's first column, the list of the JSON, and head = key * factor of what is
    /// compared, with ^ where what is needed is rounded up. The first pair may be a name or a frequency, by which rows are found; else rows
    /// stand in the list's order.
    /// </summary>
    public static TheoryData<string, string, string, string, string> Cases => new()
    {
        { "page", "stress", "part", "parts",
            "part=part;V peak=peak_voltage_v;A rms=rms_current_a;heat, W=dissipation_w;good to, W=good_to_w" },
        { "text", "stress", "part", "parts",
            "part=part;peak V=peak_voltage_v;rms A=rms_current_a;heat W=dissipation_w;good to W=good_to_w" },
        {
            "page", "plan", "receive MHz", "channels",
            "receive MHz=frequency_hz*1e-6;harmful=harmful;marginal=marginal;worst dB=worst_over_noise_db;sum dB=sum_over_noise_db"
        },
        {
            "text", "plan", "receive MHz", "channels",
            "receive MHz=frequency_hz*1e-6;harmful=harmful;marginal=marginal;worst dB=worst_over_noise_db;sum dB=sum_over_noise_db"
        },
        {
            "page", "study", "letter", "receivers.0.carriers",
            "emitter=emitter;MHz=frequency_hz*1e-6;at the antenna, dBm=level_at_antenna_dbm;at the receiver, dBm=level_at_receiver_dbm"
        },
        {
            "page", "study", "number", "receivers.0.products",
            "order=order;offset, kHz=offset_hz*1e-3;width, kHz=bandwidth_hz*1e-3;in channel, dBm=in_channel_level_dbm;"
                + "over noise, dB=over_noise_db"
        },
        {
            "page", "cure", "Way", "receivers.0.cures",
            "Way=rank;Harmful left=harmful_left;Worst over noise, dB=worst_over_noise_db;Wanted signal loses, dB=wanted_loss_db;"
                + "Range, %=range_share*100"
        },
        { "page", "cure", "Emitter", "receivers.0.needs", "Emitter=emitter;MHz=frequency_hz*1e-6;least, dB=attenuation_db^" },
        { "page", "cure", "Emitter", "receivers.0.needs_with_margin", "Emitter=emitter;with 6 dB of margin=attenuation_db^" },
        { "page", "bypass", "part", "parts", "part=part;peak=peak_voltage_v;peak, SWR=worst_peak_voltage_v" },
        { "page", "bypass", "supply", "margins",
            "supply=supply_v;coil=coil_celsius;current over need=coil_margin;drive over full=saturation_margin;attack=attack_s*1e3" },
        { "text", "bypass", "supply", "margins",
            "supply=supply_v;coil=coil_celsius;current over need=coil_margin;drive over full=saturation_margin;attack=attack_s*1e3" },
        {
            "text", "tolerance", "frequency MHz", "bands",
            "frequency MHz=frequency_hz*1e-6;S21 dB=s21_db.nominal;S21 5 %=s21_db.p5;S21 50 %=s21_db.p50;S21 95 %=s21_db.p95;"
                + "S11 dB=s11_db.nominal;S11 5 %=s11_db.p5"
        },
        {
            "page", "tolerance", "MHz", "bands",
            "MHz=frequency_hz*1e-6;drawn=s21_db.nominal;5 %=s21_db.p5;50 %=s21_db.p50;95 %=s21_db.p95;S11 drawn=s11_db.nominal"
        },
        { "page", "newcomer", "receiver", "receivers", "margin, dB=margin_db" },
        { "page", "locate", "possibility", "receivers.0.hypotheses", "now=probability*100" },
        { "text", "mix", "order", "products", "order=order;offset kHz=offset_hz*1e-3" },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task Table_prints_the_figures_of_the_json(string where, string answer, string firstHead, string list, string pairs)
    {
        PrintedTable table = (await Tables(where, answer)).First(t => t.Heads[0] == firstHead);
        JsonElement[] objects = [.. At(JsonDocument.Parse(Answered.JsonOf(answer)).RootElement, list.Split('.')).EnumerateArray()];
        (string Head, string[] Key, double Factor, bool Up)[] columns = [.. pairs.Split(';').Select(Pair)];
        Assert.NotEmpty(table.Rows);
        int compared = 0;
        for (int r = 0; r < table.Rows.Count; r++)
        {
            if (Find(table, columns[0], table.Rows[r], objects, r) is not { } of)
            {
                continue;
            }

            foreach ((string head, string[] key, double factor, bool up) in columns)
            {
                string cell = table.Rows[r][table.Column(head)];
                JsonElement value = At(of, key);
                (double Value, double LastDigit)? printed = value.ValueKind == JsonValueKind.String ? null : PrintedTable.Figure(cell);
                if (value.ValueKind == JsonValueKind.Number && printed is { } figure && !cell.Contains('<', StringComparison.Ordinal)
                    && !cell.Contains('>', StringComparison.Ordinal))
                {
                    compared++;
                    double more = figure.Value - (value.GetDouble() * factor);
                    Assert.True(
                        up ? more > -1e-6 && more < figure.LastDigit : Math.Abs(more) <= 0.5001 * figure.LastDigit,
                        $"{head}: '{cell}' beside {value.GetRawText()}");
                }
                else if (value.ValueKind == JsonValueKind.Null)
                {
                    Assert.Null(printed);
                }
            }
        }

        Assert.True(compared > 0, "no figure compared");
    }

    // The text's and the page's sentence are one; so is the figure of a table that both have.
    [Theory]
    [InlineData("stress", "peak V", "V peak")]
    [InlineData("plan", "worst dB", "worst dB")]
    [InlineData("bypass", "drive over full", "drive over full")]
    [InlineData("tolerance", "share of spread %", "share, %")]
    public async Task Column_of_the_text_is_that_of_the_page(string answer, string inText, string onPage)
    {
        PrintedTable text = (await Tables("text", answer)).First(t => t.Heads.Contains(inText));
        PrintedTable page = (await Tables("page", answer)).First(t => t.Heads.Contains(onPage));
        int rows = Math.Min(text.Rows.Count, page.Rows.Count);
        Assert.True(rows > 1);
        for (int r = 0; r < rows; r++)
        {
            Assert.Equal(
                PrintedTable.Figure(text.Rows[r][text.Column(inText)]), PrintedTable.Figure(page.Rows[r][page.Column(onPage)]));
        }
    }

    private static async Task<IReadOnlyList<PrintedTable>> Tables(string where, string answer)
    {
        string key = where + answer;
        IReadOnlyList<PrintedTable>? tables;
        lock (_tables)
        {
            _tables.TryGetValue(key, out tables);
        }

        tables ??= where == "page" ? PrintedTable.OfPage(await Answered.PageOf(answer)) : PrintedTable.OfText(Answered.TextOf(answer));
        lock (_tables)
        {
            return _tables[key] = tables;
        }
    }

    // By its name or its frequency where the first pair is one, by its place in the list where it is not.
    private static JsonElement? Find(
        PrintedTable table, (string Head, string[] Key, double Factor, bool Up) by, string[] row, JsonElement[] objects, int place)
    {
        string cell = row[table.Column(by.Head)];
        JsonElement first = At(objects[0], by.Key);
        if (first.ValueKind == JsonValueKind.String)
        {
            return objects.Single(o => At(o, by.Key).GetString() is { } name
                && (cell == name || cell.StartsWith(name + ",", StringComparison.Ordinal)));
        }

        if (by.Key[^1] == "frequency_hz" && PrintedTable.Figure(cell) is { } figure)
        {
            return objects.Cast<JsonElement?>().FirstOrDefault(o =>
                Math.Abs((At(o!.Value, by.Key).GetDouble() * by.Factor) - figure.Value) <= 0.5001 * figure.LastDigit);
        }

        return place < objects.Length ? objects[place] : null;
    }

    private static (string, string[], double, bool) Pair(string text)
    {
        string[] two = text.Split('='), key = two[1].TrimEnd('^').Split('*');
        return (
            two[0], key[0].Split('.'), key.Length == 2 ? double.Parse(key[1], CultureInfo.InvariantCulture) : 1, text.EndsWith('^'));
    }

    private static JsonElement At(JsonElement of, string[] path) => path.Aggregate(of, static (at, step) =>
        int.TryParse(step, out int index) ? at[index] : at.GetProperty(step));
}
