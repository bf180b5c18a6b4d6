using System.Numerics;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Tests.Common;
using static Spurless.Circuits.Tests.Touchstone.TouchstoneFiles;

namespace Spurless.Circuits.Tests.Touchstone;

/// <summary>
/// Origin of the figures unless said otherwise: examples of the Touchstone File Format Specification 2.0 (IBIS Open Forum),
/// complex values recomputed from them.
/// </summary>
public sealed class TouchstoneReaderTests
{
    private static readonly Complex[] Amplifier2GHz =
    [
        // 2 GHz: .95 -26 / 3.57 157 / .04 76 / .66 -14, in the order 11 21 12 22.
        new(0.853854, -0.416453), new(-3.286202, 1.394911), new(0.009677, 0.038812), new(0.640395, -0.159668),
    ];

    // Found by changed inputs: a keyword of 47,000 letters stood whole in the message.
    [Fact]
    public void Read_of_a_keyword_of_any_length_says_so_in_few_words()
    {
        string keyword = "[Version] 2.0\n# Hz S RI R 50\n[" + new string('K', 47_000) + "]\n[Number of Ports] 1\n";
        _ = ReadText(keyword + "[Number of Frequencies] 1\n[Network Data]\n1 0 0\n[End]\n", "x.ts", out DiagnosticBag bag);

        Diagnostic told = Assert.Single(bag.InOrder(), static d => d.What.StartsWith("the keyword [KKKK", StringComparison.Ordinal));
        Assert.InRange(told.What.Length, 40, 200);
    }

    public static TheoryData<string> Everything()
    {
        TheoryData<string> all = [];
        foreach (string folder in (string[])["standard", "one_network", "measured", "odd"])
        {
            foreach (string file in TestData.Files("touchstone/" + folder))
            {
                all.Add(folder + "/" + file);
            }
        }

        return all;
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Read_every_file_is_read_or_refused_for_its_ports(string file)
    {
        TouchstoneData? data = Read(file, out DiagnosticBag bag);
        bool many = file.Contains("four_port", StringComparison.Ordinal) || file.Contains("six_port", StringComparison.Ordinal);
        Assert.Equal(many, data is null);
        Assert.Equal(many, bag.HasErrors);
        if (many)
        {
            Assert.Equal(TouchstoneReader.ManyPorts, Assert.Single(bag.InOrder(), d => d.Severity == Severity.Error).What);
        }
        else
        {
            Assert.All(data!.Points, p => Assert.True(Complex.IsFinite(p.S11)));
        }
    }

    [Fact]
    public void Read_amplifier_in_version_1_has_21_before_12()
    {
        TouchstoneData data = Good("standard/amplifier_noise_version_1.s2p");
        Assert.Equal([2e9, 22e9], data.FrequenciesHz);
        ScatteringMatrix s = data.Points[0];
        Near(Amplifier2GHz[0], s.S11, 1e-6);
        Near(Amplifier2GHz[1], s.S21, 1e-6);
        Near(Amplifier2GHz[2], s.S12, 1e-6);
        Near(Amplifier2GHz[3], s.S22, 1e-6);

        // 20 lg 3.57 = 11.05 dB, not the -28 dB of the wrong order.
        Assert.Equal(-11.05, s.InsertionLossDb, 0.005);
    }

    [Theory]
    [InlineData("standard/amplifier_noise_version_2.ts")]
    [InlineData("odd/order_12_21.ts")]
    public void Read_both_port_orders_of_version_2_mean_the_same_amplifier(string file)
    {
        ScatteringMatrix s = Good(file).Points[0];
        Near(Amplifier2GHz[0], s.S11, 1e-6);
        Near(Amplifier2GHz[1], s.S21, 1e-6);
        Near(Amplifier2GHz[2], s.S12, 1e-6);
        Near(Amplifier2GHz[3], s.S22, 1e-6);
    }

    [Fact]
    public void Read_noise_block_is_kept_and_its_resistance_is_ohms_in_both_versions()
    {
        TouchstoneData one = Good("standard/amplifier_noise_version_1.s2p");
        TouchstoneData two = Good("standard/amplifier_noise_version_2.ts");
        Assert.Equal(new Complex(25, 0), two.References[1]);
        foreach (TouchstoneData data in (TouchstoneData[])[one, two])
        {
            Assert.Equal([4e9, 18e9], data.Noise.Select(n => n.FrequencyHz));
            Assert.Equal(0.7, data.Noise[0].MinimumNoiseFigureDb);
            Near(Polar(0.64, 69), data.Noise[0].OptimumSource, 1e-12);

            // 0.38 x 50 = 19 ohm, the figure of the version 2 example.
            Assert.Equal(19, data.Noise[0].NoiseResistanceOhm, 1e-12);
        }
    }

    [Fact]
    public void Read_one_port_point_gives_the_specification_s_value()
    {
        TouchstoneData data = Good("standard/one_point_ma.s1p");
        Assert.Equal(1, data.Ports);
        Assert.Equal(2e6, data.FrequenciesHz[0]);
        Near(new Complex(0.874020, -0.187948), data.Points[0].S11, 1e-6);
        Assert.True(double.IsNaN(data.Points[0].S21.Real));
    }

    [Fact]
    public void Read_decibels_are_20_lg_of_the_magnitude()
    {
        TouchstoneData? data = ReadText("# MHz S DB R 50\n2.000 -0.97 -12.136\n", "a.s1p", out _);
        Near(new Complex(0.874348, -0.188019), data!.Points[0].S11, 1e-6);
    }

    [Fact]
    public void Read_impedances_are_divided_by_the_reference_in_version_1_only()
    {
        TouchstoneData one = Good("standard/z_normalised_75.s1p");
        TouchstoneData two = Good("standard/z_ma_reference_20.ts");
        Assert.Equal(75, one.References[0].Real);
        Assert.Equal(20, two.References[0].Real);

        // 0.99 x 75 = 74.25 ohm at -4 degrees: 74.0691 - j5.1794 ohm.
        Complex z = new(74.0691, -5.1794);
        Near(z, 75 * (1 + one.Points[0].S11) / (1 - one.Points[0].S11), 1e-3);
        Near(z, 20 * (1 + two.Points[0].S11) / (1 - two.Points[0].S11), 1e-3);
    }

    [Fact]
    public void Read_hybrid_and_inverse_hybrid_are_one_network()
    {
        // The G figures are the inverse of the H figures, printed to 6 digits, but for the angle of G12: it stands as -76.627 where
        // the inverse has -76.9627 degrees, which moves S11 and S12 by 4.2e-4 and S21 by 9.4e-4.
        ScatteringMatrix h1 = Good("standard/h_khz.s2p").Points[0];
        ScatteringMatrix h2 = Good("standard/h_khz_version_2.ts").Points[0];
        ScatteringMatrix g = Good("standard/g_khz_version_2.ts").Points[0];
        Assert.Equal(h1, h2);
        Near(h1.S11, g.S11, 5e-4);
        Near(h1.S12, g.S12, 5e-4);
        Near(h1.S21, g.S21, 1e-3);
        Near(h1.S22, g.S22, 5e-4);

        // Hand check in 1 ohm: b = (V - I)/2, a = (V + I)/2 with V1 = h11 I1 + h12 V2, I2 = h21 I1 + h22 V2 gives
        // S21 = -2 h21/((h11 + 1)(h22 + 1) - h12 h21).
        Complex h11 = Polar(.95, -26), h21 = Polar(3.57, 157), h12 = Polar(.04, 76), h22 = Polar(.66, -14);
        Near(-2 * h21 / (((h11 + 1) * (h22 + 1)) - (h12 * h21)), h1.S21, 1e-12);
    }

    [Fact]
    public void Read_admittances_are_normalised_in_version_1_only()
    {
        // A resistor of 20 ohm between the ports, in 20 ohm: S21 = 2/(2 + 1) = 2/3 (hand).
        foreach (string file in (string[])["odd/y_normalised_20.s2p", "odd/y_siemens.ts"])
        {
            ScatteringMatrix s = Good(file).Points[0];
            Near(2.0 / 3, s.S21, 1e-12);
            Near(1.0 / 3, s.S11, 1e-12);
        }

        // G: g11 = 1/20 S across port 1, g22 = 20 ohm in series at port 2, g21 = 1 = -g12: an L of two 20 ohm resistors.
        // Matched at port 2: 20 + 20 || 20 = 30 ohm against 20: S22 = 1/5;
        // from port 1 V1 = 0.4 E, V2 = V1/2, S21 = 2 V2/E = 0.4 (hand).
        ScatteringMatrix l = Good("odd/g_normalised_20.s2p").Points[0];
        Near(0.2, l.S22, 1e-12);
        Near(0.4, l.S21, 1e-12);
        Near(0.4, l.S12, 1e-12);
    }

    [Fact]
    public void Read_real_and_imaginary_parts()
    {
        TouchstoneData data = Good("standard/three_points_ri.s2p");
        Assert.Equal([1e9, 2e9, 10e9], data.FrequenciesHz);
        Assert.Equal(new Complex(-0.0003, -0.0021), data.Points[0].S21);
        Assert.Equal(new Complex(0.3926, -0.1211), data.Points[0].S22);
    }

    [Fact]
    public void Read_one_port_written_five_ways_reads_alike()
    {
        TouchstoneData best = Good("one_network/resonance_ri_ghz_exponents.s1p");
        (string File, double Tolerance)[] ways =
        [
            // Half a unit of the last printed digit, on magnitude and on angle (9 digits; 4 digits).
            ("resonance_ma_hz.s1p", 2e-9),
            ("resonance_ma_mhz.s1p", 2e-9),
            ("resonance_db_ghz.s1p", 2e-9),
            ("resonance_db_ghz_four_digits.s1p", 8e-4),
        ];
        foreach ((string file, double tolerance) in ways)
        {
            TouchstoneData other = Good("one_network/" + file);
            Assert.Equal(best.FrequenciesHz, other.FrequenciesHz);
            for (int i = 0; i < best.Points.Length; i++)
            {
                Near(best.Points[i].S11, other.Points[i].S11, tolerance);
            }
        }
    }

    [Fact]
    public void Read_two_port_written_five_ways_reads_alike()
    {
        TouchstoneData[] all =
        [
            .. ((string[])["one_way_ri.s2p", "one_way_ma.s2p", "one_way_db.s2p", "one_way_ri_noise.s2p", "one_way_db_noise.s2p"])
                .Select(f => Good("one_network/" + f)),
        ];
        foreach (TouchstoneData data in all)
        {
            Assert.Equal(all[0].FrequenciesHz, data.FrequenciesHz);
            for (int i = 0; i < data.Points.Length; i++)
            {
                // 9 digits of 13 dB: 5e-8 dB, at a magnitude of 4.4 that is 2.6e-8.
                Near(all[0].Points[i].S11, data.Points[i].S11, 3e-8);
                Near(all[0].Points[i].S21, data.Points[i].S21, 3e-8);
                Near(all[0].Points[i].S22, data.Points[i].S22, 3e-8);

                // -inf dB is a zero, exactly.
                Assert.Equal(Complex.Zero, data.Points[i].S12);
            }
        }

        Assert.Equal(all[3].Noise.Length, all[4].Noise.Length);
        Assert.Equal(0.867147791, all[4].Noise[^1].MinimumNoiseFigureDb);
        Assert.Equal(1, all[4].Noise[^1].NoiseResistanceOhm, 1e-9);
    }

    [Fact]
    public void Read_series_coil_is_its_closed_form()
    {
        // 2 ohm and 40 nH in series between 50 ohm: S11 = Z/(Z + 100), S21 = 100/(Z + 100); printed to 9 digits.
        TouchstoneData data = Good("odd/series_coil_uneven_steps.s2p");
        for (int i = 0; i < data.Points.Length; i++)
        {
            Complex z = new(2, 2 * Math.PI * data.FrequenciesHz[i] * 40e-9);
            Near(z / (z + 100), data.Points[i].S11, 1e-9);
            Near(100 / (z + 100), data.Points[i].S21, 1e-9);
        }
    }

    [Fact]
    public void Read_frequencies_are_scaled_in_decimal()
    {
        TouchstoneData? data = ReadText("# GHz S RI\n0.1450500001 0 0\n1.6051250000E-001 0 0\n", "a.s1p", out _);
        Assert.Equal([145050000.1, 160512500], data!.FrequenciesHz);
    }

    [Fact]
    public void Read_triangle_and_references_over_two_lines()
    {
        TouchstoneData data = Good("odd/upper_triangle.ts");
        Assert.Equal([new Complex(50, 0), new Complex(75, 0)], data.References);
        Assert.Equal(new Complex(0.5, 0), data.Points[0].S12);
        Assert.Equal(new Complex(0.5, 0), data.Points[0].S21);
        Assert.Equal(new Complex(0.1, -0.3), data.Points[1].S22);
    }

    [Theory]
    [InlineData("odd/option_line_bare_any_order.s1p", 75.0, 0.0)]
    [InlineData("odd/complex_reference.s2p", 50.0, 10.0)]
    [InlineData("odd/complex_reference_in_brackets.s2p", 50.0, 50.0)]
    [InlineData("odd/tabs_crlf.s1p", 50.0, 0.0)]
    public void Read_option_line_s_reference(string file, double real, double imaginary)
    {
        TouchstoneData data = Good(file);
        Assert.Equal(new Complex(real, imaginary), data.References[0]);
        Assert.Equal(145e6, data.FrequenciesHz[0]);
        Assert.Equal(new Complex(0.1, 0.2), data.Points[0].S11);
    }

    [Theory]
    [InlineData("odd/two_option_lines.s1p", 2, "second option line")]
    [InlineData("odd/no_option_line.s1p", 2, "without an option line")]
    [InlineData("odd/complex_reference.s2p", 1, "complex")]
    [InlineData("odd/impedances_in_comments.s1p", 2, "comment speaks of port impedances")]
    [InlineData("standard/z_ma_no_network_data.ts", 6, "without [Network Data]")]
    [InlineData("standard/two_port_announced_noise_missing.ts", 7, "[Number of Noise Frequencies] says 2")]
    public void Read_what_is_doubtful_is_read_with_a_warning(string file, int line, string words)
    {
        Read(file, out DiagnosticBag bag);
        Diagnostic warning = Assert.Single(bag.InOrder(), d => d.What.Contains(words, StringComparison.Ordinal));
        Assert.Equal(Severity.Warning, warning.Severity);
        Assert.Equal(line, warning.Line);
    }

    [Fact]
    public void Read_no_option_line_takes_the_defaults()
    {
        TouchstoneData data = Good("odd/no_option_line.s1p");
        Assert.Equal([1e9, 2e9, 5e9], data.FrequenciesHz);
        Near(Polar(0.15, 5), data.Points[1].S11, 1e-12);
    }

    [Fact]
    public void Read_every_bad_file_says_where_and_what()
    {
        List<string> found = [];
        foreach (string file in TestData.Files("touchstone/bad").Where(f => f != "expected.txt"))
        {
            TouchstoneData? data = Read("bad/" + file, out DiagnosticBag bag);
            Assert.True(data is null, file + " was read");
            Assert.True(bag.HasErrors, file + " has no error");
            found.AddRange(bag.InOrder().Select(d => d.ToString()));
        }

        string[] expected = File.ReadAllLines(TestData.Path("touchstone/bad/expected.txt"));
        Assert.True(expected.SequenceEqual(found), string.Join('\n', found));
    }

    [Fact]
    public void Read_binary_file_stops_after_a_page_of_errors()
    {
        byte[] bytes = new byte[200_000];
        new Random(4).NextBytes(bytes);
        DiagnosticBag bag = new();
        using MemoryStream stream = new(bytes);
        Assert.Null(TouchstoneReader.Read(stream, "picture.s2p", bag));
        Assert.InRange(bag.InOrder().Count(d => d.Severity == Severity.Error), 1, 61);
        Assert.All(bag.InOrder(), d => Assert.All(d.ToString(), c => Assert.InRange(c, ' ', '~')));
    }
}
