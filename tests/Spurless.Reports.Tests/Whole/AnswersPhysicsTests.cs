using System.Globalization;
using System.Numerics;
using System.Text.Json;
using Spurless.Reports.Tests.Text;

namespace Spurless.Reports.Tests.Whole;

/// <summary>
/// What a reader with a pocket calculator can check in the JSON of an answer: energy is kept, powers add up, counts are those of the list,
/// what is passive gives out no more than it gets.
/// </summary>
public sealed class AnswersPhysicsTests
{
    [Fact]
    public void Stress_shares_out_the_power_that_there_is()
    {
        JsonElement root = Root("stress");
        double available = Of(root, "available_w");
        Assert.Equal(available, Of(root, "delivered_w") + Of(root, "reflected_w") + Of(root, "dissipated_w"), 1e-9 * available);
        JsonElement[] parts = [.. root.GetProperty("parts").EnumerateArray()];

        // Each part stands with its own worst phase: together at least the worst whole, and none is more than that.
        Assert.True(parts.Sum(static p => Of(p, "dissipation_w")) >= Of(root, "dissipated_w") - 1e-9);
        Assert.All(parts, p => Assert.InRange(Of(p, "dissipation_w"), 0, Of(root, "dissipated_w") + 1e-9));

        // Peak voltage grows with the root of the power: at 'good to' a voltage limit of 50 V is just met, a heat of 1 W too.
        foreach (JsonElement part in parts)
        {
            double ratio = Of(part, "good_to_w") / available;
            string limit = part.GetProperty("limit").GetString()!;
            double figure = double.Parse(limit.Split(' ')[0], CultureInfo.InvariantCulture);
            double there = limit.Split(' ')[1] == "V" ? Of(part, "peak_voltage_v") * Math.Sqrt(ratio) : Of(part, "dissipation_w") * ratio;
            Assert.Equal(figure, there, 1e-6 * figure);
            Assert.Equal(ratio < 1, part.GetProperty("limit_passed").GetBoolean());
        }

        Assert.Equal(parts.Min(static p => Of(p, "good_to_w")), Of(root, "safe_power_w"), 1e-9);
        Assert.Equal(Of(root, "safe_power_w") >= available, root.GetProperty("may_transmit").GetBoolean());
        Assert.Equal(root.GetProperty("gives_first").GetString(), parts.MinBy(static p => Of(p, "good_to_w")).GetProperty("part")
            .GetString());
    }

    [Fact]
    public void Response_of_a_passive_network_is_reciprocal_and_gives_out_no_more_than_it_gets()
    {
        JsonElement root = Root("response");
        double ohms = Of(root, "impedance_ohm");
        double last = 0;
        foreach (JsonElement point in root.GetProperty("points").EnumerateArray())
        {
            Complex s11 = Complex("s11"), s21 = Complex("s21"), s12 = Complex("s12"), s22 = Complex("s22");
            Assert.Equal(s12, s21);
            Assert.InRange(Power(s11) + Power(s21), 0, 1 + 1e-9);
            Assert.InRange(Power(s22) + Power(s12), 0, 1 + 1e-9);

            // The input's impedance behind a matched load is Z0 (1 + S11) / (1 - S11).
            Complex z = ohms * (1 + s11) / (1 - s11);
            Assert.InRange((z - Complex("input_impedance_ohm")).Magnitude / z.Magnitude, 0, 1e-6);
            Assert.True(Of(point, "frequency_hz") > last, "frequencies rise");
            last = Of(point, "frequency_hz");

            Complex Complex(string key) => new(point.GetProperty(key)[0].GetDouble(), point.GetProperty(key)[1].GetDouble());
        }

        static double Power(Complex s) => (s.Real * s.Real) + (s.Imaginary * s.Imaginary);
    }

    // A delay is minus the slope of the phase over the angular frequency: taken here from neighbouring points.
    [Fact]
    public void Group_delay_is_the_slope_of_the_phase()
    {
        JsonElement[] points = [.. Root("response").GetProperty("points").EnumerateArray()];
        for (int i = 1; i + 1 < points.Length; i++)
        {
            Complex before = S21(points[i - 1]), after = S21(points[i + 1]);
            double step = 2 * Math.PI * (Of(points[i + 1], "frequency_hz") - Of(points[i - 1], "frequency_hz"));
            double slope = -(after / before).Phase / step;
            if (points[i].GetProperty("group_delay_s") is { ValueKind: JsonValueKind.Number } delay)
            {
                Assert.InRange(delay.GetDouble() - slope, -0.1e-9 - (0.05 * Math.Abs(slope)), 0.1e-9 + (0.05 * Math.Abs(slope)));
            }
        }

        static Complex S21(JsonElement p) => new(p.GetProperty("s21")[0].GetDouble(), p.GetProperty("s21")[1].GetDouble());
    }

    [Fact]
    public void Tolerance_has_its_quantiles_in_order_and_none_over_nothing()
    {
        JsonElement root = Root("tolerance");
        foreach (JsonElement band in root.GetProperty("bands").EnumerateArray())
        {
            foreach (JsonElement s in (JsonElement[])[band.GetProperty("s21_db"), band.GetProperty("s11_db")])
            {
                Assert.True(Of(s, "p5") <= Of(s, "p50") && Of(s, "p50") <= Of(s, "p95"));
                Assert.InRange(Of(s, "p95"), double.NegativeInfinity, 1e-9);
                Assert.InRange(Of(s, "nominal"), double.NegativeInfinity, 1e-9);
            }
        }
    }

    // In the CSV the same counts are reached by going through its rows, and the sum over the noise is that of powers, not of decibels.
    [Fact]
    public void Study_counts_and_sums_what_it_lists()
    {
        List<List<string>> rows = WrittenText.Csv(Answered.CsvOf("study"));
        List<string> head = rows[0];
        foreach (JsonElement receiver in Root("study").GetProperty("receivers").EnumerateArray())
        {
            JsonElement[] products = [.. receiver.GetProperty("products").EnumerateArray()];
            string name = receiver.GetProperty("name").GetString()!;
            List<string>[] own = [.. rows.Skip(1).Where(r => r[head.IndexOf("receiver")].TrimStart('\'') == name)];
            Assert.Equal(products.Length, own.Length);
            foreach (string verdict in (string[])["harmful", "marginal", "clear", "unknown"])
            {
                Assert.Equal(products.Count(p => p.GetProperty("verdict").GetString() == verdict),
                    own.Count(r => r[head.IndexOf("verdict")] == verdict));
            }

            double[] over = [.. products.Select(static p => p.GetProperty("over_noise_db"))
                .Where(static o => o.ValueKind == JsonValueKind.Number)
                .Select(static o => o.GetDouble())];
            if (over.Length > 0)
            {
                // Mixtures under the report floor count in the sum but are not listed: at least as much as what is listed.
                double sum = 10 * Math.Log10(over.Sum(static o => Math.Pow(10, o / 10)));
                Assert.InRange(Of(receiver, "sum_over_noise_db"), sum - 1e-5, sum + 0.5);
            }

            foreach (JsonElement p in products.Where(static p => p.GetProperty("over_noise_db").ValueKind == JsonValueKind.Number))
            {
                Assert.Equal(Of(p, "in_channel_level_dbm") - Of(receiver, "noise_floor_dbm"), Of(p, "over_noise_db"), 2e-6);
                Assert.Equal(Of(p, "frequency_hz") - Of(receiver, "frequency_hz"), Of(p, "offset_hz"));
                Assert.Equal(Of(p, "over_noise_db") >= 0, p.GetProperty("verdict").GetString() == "harmful");
            }
        }
    }

    // Thermal noise at 290 K: kTB, -173.98 dBm in a hertz (k = 1.380649e-23 J/K, SI 2019), and the noise figure of the site's file.
    [Fact]
    public void Noise_floor_is_that_of_the_noise_figure_in_the_if_bandwidth()
    {
        JsonElement second = Root("study").GetProperty("receivers")[1];
        double thermal = 10 * Math.Log10(1.380649e-23 * 290 * 8_000 * 1000);
        Assert.Equal(thermal + 6, Of(second, "noise_floor_dbm"), 1e-5);
    }

    // All sums of whole multiples of three carriers, counted out: which land within the width, each once.
    [Fact]
    public void Mix_lists_every_combination_that_lands_and_no_other()
    {
        long[] carriers = [158_300_000, 171_550_000, 160_525_000];
        HashSet<string> wanted = [];
        for (int a = -5; a <= 5; a++)
        {
            for (int b = -5; b <= 5; b++)
            {
                for (int c = -5; c <= 5; c++)
                {
                    int order = Math.Abs(a) + Math.Abs(b) + Math.Abs(c);
                    long at = (a * carriers[0]) + (b * carriers[1]) + (c * carriers[2]);
                    if (order is >= 2 and <= 5 && Math.Abs(at - 145_050_000) <= 50_000)
                    {
                        wanted.Add($"{a},{b},{c} of order {order} on {at}");
                    }
                }
            }
        }

        int[] Coefficients(JsonElement p) => [.. carriers.Select(f => p.GetProperty("terms").EnumerateArray()
            .Where(t => t.GetProperty("frequency_hz").GetInt64() == f).Sum(static t => t.GetProperty("coefficient").GetInt32()))];
        string[] listed = [.. Root("mix").GetProperty("products").EnumerateArray().Select(p =>
            $"{string.Join(',', Coefficients(p))} of order {p.GetProperty("order").GetInt32()} on "
                + p.GetProperty("frequency_hz").GetRawText())];
        Assert.Equal(wanted.Order(), listed.Order());
    }

    [Fact]
    public void Plan_looks_at_every_channel_of_the_raster_once_and_lists_the_quietest_first()
    {
        JsonElement root = Root("plan");
        JsonElement[] channels = [.. root.GetProperty("channels").EnumerateArray()];
        long[] raster = [.. Enumerable.Range(0, 17).Select(static i => 145_000_000L + (12_500 * i))];
        Assert.Equal(raster, channels.Select(static c => c.GetProperty("frequency_hz").GetInt64()).Order());
        int[] harm = [.. channels.Select(static c => (c.GetProperty("harmful").GetInt32() * 1000) + c.GetProperty("marginal").GetInt32())];
        Assert.Equal(harm.Order(), harm);
        Assert.All(channels, static c => Assert.Equal(
            c.GetProperty("worst_over_noise_db").ValueKind == JsonValueKind.Null, c.GetProperty("sum_over_noise_db")
                .ValueKind == JsonValueKind.Null));
        Assert.All(
            channels.Where(static c => c.GetProperty("worst_over_noise_db").ValueKind == JsonValueKind.Number),
            static c => Assert.True(Of(c, "sum_over_noise_db") >= Of(c, "worst_over_noise_db") - 1e-9));
    }

    [Fact]
    public void Cure_takes_less_than_there_was_and_states_its_margin()
    {
        foreach (JsonElement receiver in Root("cure").GetProperty("receivers").EnumerateArray())
        {
            int tried = receiver.GetProperty("tried").GetInt32();
            JsonElement[] cures = [.. receiver.GetProperty("cures").EnumerateArray()];
            Assert.True(tried >= cures.Length);
            Assert.Equal(Enumerable.Range(1, cures.Length), cures.Select(static c => c.GetProperty("rank").GetInt32()));
            Assert.All(cures, c => Assert.InRange(c.GetProperty("harmful_left").GetInt32(), 0, receiver.GetProperty("harmful").GetInt32()));

            // A signal that loses L dB reaches 10^(-L/20) as far in free space at most, more where its law is steeper: never further.
            Assert.All(cures, static c => Assert.InRange(
                Of(c, "range_share"), Math.Pow(10, -Math.Max(0, Of(c, "wanted_loss_db")) / 20) - 1e-6, 1.01));
            foreach ((JsonElement bare, JsonElement with) in receiver.GetProperty("needs").EnumerateArray().Zip(
                receiver.GetProperty("needs_with_margin").EnumerateArray()))
            {
                Assert.Equal(bare.GetProperty("emitter").GetString(), with.GetProperty("emitter").GetString());
                Assert.Equal(6, Of(with, "attenuation_db") - Of(bare, "attenuation_db"), 1e-5);
            }
        }
    }

    // An effect of a mixture over the noise: 10 lg (1 + 10^(x / 10)) is what the noise rises by.
    [Fact]
    public void Noise_rises_by_what_is_added_to_it()
    {
        int looked = 0;
        foreach (JsonElement p in Root("newcomer").GetProperty("receivers").EnumerateArray()
            .Concat(Root("study").GetProperty("receivers").EnumerateArray())
            .SelectMany(static r => r.GetProperty("products").EnumerateArray()))
        {
            if (p.GetProperty("effects") is { ValueKind: JsonValueKind.Object } effects)
            {
                looked++;
                Assert.Equal(10 * Math.Log10(1 + Math.Pow(10, Of(p, "over_noise_db") / 10)), Of(effects, "noise_rise_db"), 2e-6);
            }

            if (p.TryGetProperty("transmitter_sum", out JsonElement sum) && sum.ValueKind == JsonValueKind.Object)
            {
                // What leaves the transmitter: what arrives there less the turn-round loss and what its output takes.
                JsonElement[] incoming = [.. sum.GetProperty("incoming").EnumerateArray()];
                if (incoming.Length == 1 && incoming[0].GetProperty("times").GetInt32() == 1)
                {
                    double taken = ((string[])["coupling_db", "output_filter_db", "isolator_db"]).Sum(k => Of(incoming[0], k));
                    double arrives = Of(incoming[0], "power_dbm") - taken;
                    Assert.Equal(arrives, Of(incoming[0], "arrives_dbm"), 2e-6);
                    Assert.Equal(
                        arrives - Of(sum, "turn_round_loss_db") - Of(sum, "output_filter_db"), Of(sum, "leaves_dbm"), 2e-6);
                }

                Assert.Equal(Of(sum, "leaves_dbm") - Of(sum, "path_db"), Of(sum, "level_at_antenna_dbm"), 2e-6);
            }
        }

        Assert.True(looked > 1);
    }

    // Wheeler's formula for a single-layer coil (Proc. IRE 16, 1928, p. 1398, from memory), in inches: L = a^2 n^2 / (9 a + 10 b)
    // microhenries, good to a per cent for b over 0.8 a.
    [Fact]
    public void Coil_has_the_inductance_of_Wheelers_formula()
    {
        JsonElement root = Root("coil");
        double a = Of(root, "diameter_m") / 2 / 0.0254, b = Of(root, "length_m") / 0.0254, n = Of(root, "turns");
        Assert.Equal(a * a * n * n / ((9 * a) + (10 * b)) * 1e-6, Of(root, "wheeler_inductance_h"),
            1e-3 * Of(root, "wheeler_inductance_h"));
        Assert.InRange(Of(root, "sheet_inductance_h") / Of(root, "wheeler_inductance_h"), 0.99, 1.01);

        // Turns of a helix and two leads of 4 mm.
        double helix = Math.Sqrt(Math.Pow(Math.PI * Of(root, "diameter_m") * n, 2) + Math.Pow(Of(root, "length_m"), 2));
        Assert.InRange(Of(root, "wire_length_m"), helix + 0.0079, helix + 0.0081);

        // It resonates with its own capacitance: 1 / (2 pi sqrt(L C)).
        double henries = Of(root, "inductance_h") + Of(root, "lead_inductance_h");
        Assert.Equal(1, Of(root, "self_resonance_hz") * 2 * Math.PI * Math.Sqrt(henries * Of(root, "self_capacitance_f")), 1e-6);
    }

    [Fact]
    public void Chances_of_what_it_could_be_are_one_whole_and_what_to_do_next_decides_no_more_than_all()
    {
        foreach (JsonElement receiver in Root("locate").GetProperty("receivers").EnumerateArray())
        {
            double[] chances = [.. receiver.GetProperty("hypotheses").EnumerateArray().Select(static h => Of(h, "probability"))];
            Assert.Equal(chances.OrderDescending(), chances);
            Assert.InRange(chances.Sum(), 0, 1 + 1e-6);
            Assert.InRange(receiver.GetProperty("places").EnumerateArray().Sum(static p => Of(p, "probability")), 0, 1 + 1e-6);
            double[] gains = [.. receiver.GetProperty("next_observations").EnumerateArray().Select(static o => Of(o, "gain_bit"))];
            Assert.All(gains, g => Assert.InRange(g, 0, Math.Log2(Math.Max(2, chances.Length)) + 1e-9));
        }
    }

    private static JsonElement Root(string answer) => JsonDocument.Parse(Answered.JsonOf(answer)).RootElement;

    private static double Of(JsonElement of, string key) => of.GetProperty(key).GetDouble();
}
