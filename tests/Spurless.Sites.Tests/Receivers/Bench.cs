using Spurless.Files.Diagnostics;
using Spurless.Sites.Receivers;
using Spurless.Sites.Sources;
using Spurless.Sites.Tests.Documents;

namespace Spurless.Sites.Tests.Receivers;

/// <summary>Measurements as a test writes them.</summary>
internal static class Bench
{
    public const string Head =
        "spurless_receiver: 1\nname: n\nfrequency: 145.05 MHz\nchannel: 12.5 kHz\nif_bandwidth: 8 kHz\nmeasured:\n";

    // 0 dB at the channel's 2 dB, 6 dB more at 160.525 MHz, 14 dB more at 176 MHz; the points lie so close that nothing is interpolated.
    public const string FrontEnd = """
        # MHz S DB R 50
        140.0    -20 0  -2 0  -2 0  -20 0
        145.05   -20 0  -2 0  -2 0  -20 0
        146.0    -20 0  -2 0  -2 0  -20 0
        160.525  -20 0  -8 0  -8 0  -20 0
        176.0    -20 0 -16 0 -16 0  -20 0
        180.0    -20 0 -18 0 -18 0  -20 0
        """;

    public static ReceiverAnswer Ask(string measured, params (string Path, string Content)[] files)
    {
        DiagnosticBag bag = new();
        LoadedMeasurements? loaded = Load(measured, bag, files);
        Assert.True(loaded is not null, string.Join('\n', bag.InOrder()));
        return ReceiverService.Ask(new ReceiverQuestion { Measurements = loaded });
    }

    public static LoadedMeasurements? Load(string measured, DiagnosticBag bag, params (string Path, string Content)[] files) =>
        SourceReader.Measurements(SourceFile.OfText("n.receiver.yaml", Head + measured, new StubFiles(files)), bag);
}
