using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Surveys;

namespace Spurless.Sites.Tests.Surveys;

public sealed class SurveyChainTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-chain-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private SiteFolder Files => new(Path.Combine(_folder, "x"));

    private SurveyChain? Read(string text, out string problems)
    {
        DiagnosticBag bag = new();
        SurveyChain? chain = SurveyChain.Read(text, Files, bag);
        problems = string.Join('\n', bag.InOrder());
        return chain;
    }

    [Fact]
    public void Read_adds_losses_and_gains_up()
    {
        SurveyChain chain = Read("cable 2 dB at 100 MHz, 4 dB at 200 MHz; pad 10 dB; Preamplifier 20 dB", out _)!;

        // By hand: at 150 MHz the cable takes 3 dB, linear between its points; beyond them it is held.
        Assert.Equal(-3 - 10 + 20, chain.GainDb(150e6), 1e-9);
        Assert.Equal(-4 - 10 + 20, chain.GainDb(900e6), 1e-9);
        Assert.Equal(["cable"], chain.Short(150e6, 300e6));
        Assert.Empty(chain.Short(120e6, 180e6));
        Assert.False(chain.HasAntennaFactor);
    }

    [Fact]
    public void Read_takes_tables_and_measured_two_ports()
    {
        File.WriteAllText(Path.Combine(_folder, "cable.csv"), "# invented\nfrequency_hz,db\n100000000,1\n200000000,3\n");

        // |S21| of 0.1 is 20 dB of loss, of 10 a gain of 20 dB; S in real and imaginary parts, 50 ohm.
        File.WriteAllText(
            Path.Combine(_folder, "f.s2p"), "# MHz S RI R 50\n100 0 0 0.1 0 0.1 0 0 0\n200 0 0 0.1 0 0.1 0 0 0\n");

        SurveyChain chain = Read("cable cable.csv; filter f.s2p", out string problems)!;

        Assert.Equal("", problems);
        Assert.Equal(-2 - 20, chain.GainDb(150e6), 1e-6);
        Assert.Equal(["cable cable.csv", "filter f.s2p"], chain.Short(50e6, 150e6));
    }

    [Fact]
    public void Read_keeps_the_antenna_factor_apart()
    {
        SurveyChain chain = Read("antenna factor 12 dB at 145 MHz, 14 dB at 165 MHz; cable 3 dB", out _)!;

        Assert.True(chain.HasAntennaFactor);
        Assert.Equal(13, chain.AntennaFactorDb(155e6), 1e-9);
        Assert.Equal(-3, chain.GainDb(155e6), 1e-9);
    }

    [Theory]
    [InlineData("wire 3 dB", "is no part of a chain; write one of cable")]
    [InlineData("cable", "is no part of a chain")]
    [InlineData("cable -3 dB", "a loss below 0 dB; write what it takes away")]
    [InlineData("cable missing.csv", "there is no file 'missing.csv'")]
    [InlineData("cable 3", "cable: ")]
    [InlineData("antenna factor f.s2p", "an antenna factor is no network")]
    [InlineData("cable bad.csv", "the heads are not frequency_hz,db")]
    [InlineData("cable short.csv", "short.csv:2:1: '1e8' is not a frequency and dB")]
    public void Read_says_what_is_wrong(string text, string expected)
    {
        File.WriteAllText(Path.Combine(_folder, "f.s2p"), "# MHz S RI R 50\n100 0 0 1 0 1 0 0 0\n");
        File.WriteAllText(Path.Combine(_folder, "bad.csv"), "hz,db\n1,2\n");
        File.WriteAllText(Path.Combine(_folder, "short.csv"), "frequency_hz,db\n1e8\n");

        Assert.Null(Read(text, out string problems));
        Assert.Contains(expected, problems, StringComparison.Ordinal);
    }
}
