using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;

namespace Spurless.Signals.Tests.Listening;

/// <summary>Recordings by others (tests/data/audio): packet frames of 9,600 Bd whose check sequence holds.</summary>
public sealed class RealRecordingTests
{
    [Theory]
    [InlineData("us01.wav")]
    [InlineData("ops_sat.wav")]
    public void OffAir_packetOf9600_isFound(string file)
    {
        Heard heard = Made.Hear(File.ReadAllBytes(Data.Path("audio", file)));
        Finding found = Assert.Single(heard.Transmissions.SelectMany(static t => t.Kinds), static k => k.Kind == SignalKind.Fsk9600);
        Assert.True(found.UnitsGood >= 1);
        Assert.True(found.Confidence > 0.99);
    }
}
