using System.Collections.Immutable;
using System.Numerics;
using CsCheck;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using static Spurless.Circuits.Tests.Touchstone.TouchstoneFiles;

namespace Spurless.Circuits.Tests.Touchstone;

public sealed class TouchstoneWriterTests
{
    private static readonly Gen<Complex> AnyWave = Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1]).Select((a, b) => new Complex(a, b));

    private static readonly Gen<TouchstoneData> AnyData = Gen.Select(
        Gen.Int[1, 2],
        Gen.Double[1e3, 1e9].Array[1, 8],
        AnyWave.Array[32],
        Gen.Double[5, 500]).Select((ports, f, w, r) =>
        {
            ImmutableArray<double> frequencies = [.. f.Select(x => Math.Round(x, 3)).Distinct().Order()];
            ImmutableArray<ScatteringMatrix> points =
                [.. frequencies.Select((_, i) => new ScatteringMatrix(w[4 * i], w[(4 * i) + 1], w[(4 * i) + 2], w[(4 * i) + 3]))];
            return TouchstoneData.Create("any", ports, frequencies, points, [new Complex(r, 0)]);
        });

    [Fact]
    public void TryWrite_all_digits_reads_back_the_same_numbers()
    {
        Gen.Select(AnyData, Gen.Bool, Gen.Enum<TouchstoneUnit>()).Sample((data, version2, unit) =>
        {
            TouchstoneData back = WriteAndRead(data, new TouchstoneWriteOptions(version2, unit));
            Assert.Equal(data.FrequenciesHz, back.FrequenciesHz);
            Assert.Equal(data.References, back.References);
            for (int i = 0; i < data.Points.Length; i++)
            {
                Assert.Equal(data.Points[i].S11, back.Points[i].S11);
                if (data.Ports == 2)
                {
                    Assert.Equal(data.Points[i], back.Points[i]);
                }
            }
        });
    }

    [Theory]
    [InlineData(TouchstoneFormat.RI)]
    [InlineData(TouchstoneFormat.MA)]
    [InlineData(TouchstoneFormat.DB)]
    public void TryWrite_nine_digits_reads_back_to_nine_digits(TouchstoneFormat format)
    {
        // 9 digits: relative 5e-9 of magnitude; angles up to 180 degrees to 5e-7 degrees, 1e-8 rad. dB to 5e-8 of at most 200 dB.
        AnyData.Sample(data =>
        {
            TouchstoneData back = WriteAndRead(data, new TouchstoneWriteOptions(false, TouchstoneUnit.Hz, format, 9));
            for (int i = 0; i < data.Points.Length; i++)
            {
                Near(data.Points[i].S11, back.Points[i].S11, 3e-8);
            }
        });
    }

    [Fact]
    public void TryWrite_zero_in_decibels_reads_back_as_zero()
    {
        TouchstoneData data = Good("one_network/one_way_db.s2p");
        TouchstoneData back = WriteAndRead(data, new TouchstoneWriteOptions(true, TouchstoneUnit.GHz, TouchstoneFormat.DB));
        Assert.Equal(Complex.Zero, back.Points[3].S12);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void TryWrite_keeps_the_noise_block(bool version2)
    {
        TouchstoneData data = Good("standard/amplifier_noise_version_1.s2p");
        TouchstoneData back = WriteAndRead(
            data, new TouchstoneWriteOptions(version2, Comments: ["an invented amplifier", "ohm Ω\nand a line"]));
        Assert.Equal(data.Noise.Length, back.Noise.Length);
        Near(data.Noise[1].OptimumSource, back.Noise[1].OptimumSource, 1e-14);
        Assert.Equal(20, back.Noise[1].NoiseResistanceOhm, 1e-12);
    }

    [Fact]
    public void TryWrite_what_the_format_cannot_hold_is_said()
    {
        Assert.False(TouchstoneWriter.TryWrite(Good("odd/complex_reference.s2p"), null, out _, out string problem));
        Assert.Contains("complex", problem, StringComparison.Ordinal);
        TouchstoneData two = Good("odd/reference_per_port.s2p");
        Assert.False(TouchstoneWriter.TryWrite(two, null, out _, out problem));
        Assert.Contains("different references", problem, StringComparison.Ordinal);
        Assert.Equal(75, WriteAndRead(two, new TouchstoneWriteOptions(true)).References[1].Real);
    }

    [Fact]
    public void TryWrite_version_2_is_as_the_specification_orders_it()
    {
        TouchstoneData data = TouchstoneData.Create(
            "a", 2, [145.05e6], [new ScatteringMatrix(0.1, 0.5, 0.25, -0.125)], [new Complex(50, 0)]);
        Assert.True(TouchstoneWriter.TryWrite(data, new TouchstoneWriteOptions(true, TouchstoneUnit.MHz), out string text, out _));
        Assert.Equal(
            "[Version] 2.0\n# MHz S RI R 50\n[Number of Ports] 2\n[Two-Port Data Order] "
                + "21_12\n[Number of Frequencies] 1\n[Reference] 50 50\n"
            + "[Matrix Format] Full\n[Network Data]\n145.05 0.1 0 0.25 0 0.5 0 -0.125 0\n[End]\n",
            text);
    }

    private static TouchstoneData WriteAndRead(TouchstoneData data, TouchstoneWriteOptions options)
    {
        Assert.True(TouchstoneWriter.TryWrite(data, options, out string text, out string problem), problem);
        TouchstoneData? back = ReadText(text, data.Ports == 1 ? "a.s1p" : "a.s2p", out var bag);
        Assert.True(back is not null, string.Join('\n', bag.InOrder()));
        return back;
    }
}
