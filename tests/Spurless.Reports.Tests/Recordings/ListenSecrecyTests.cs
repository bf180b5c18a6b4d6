using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Html;
using Spurless.Reports.Recordings;
using Spurless.Reports.Text;
using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;
using Spurless.Sites.Recordings;

namespace Spurless.Reports.Tests.Recordings;

/// <summary>Known texts, addresses, calls and digits are sent; no output of any form holds them.</summary>
public sealed class ListenSecrecyTests : IDisposable
{
    private const double Rate = 48_000;
    private const string Page = "ZEBRA QUILL 4711";
    private const string Packet = "walnut harbour 8153";
    private const string To = "XK7QZU";
    private const string From = "PB3WJD";
    private const string Digits = "5559174068";
    private const int Address = 1_597_463;
    private readonly string _path = Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString("N") + ".wav");

    public void Dispose() => File.Delete(_path);

    [Fact]
    public async Task Answers_holdNothingOfWhatWasSaidAndToWhom()
    {
        int[] page = PagingSignal.Bits([(Address, 3, Page)], 1);
        byte[][] frames = [PacketSignal.Frame(To, From, Packet), PacketSignal.Frame(To, From, Packet)];
        Sound sound = new(Rate, 22);
        sound.Add(1, PagingSignal.Wave(page, 1_200, Rate), 0.4)
            .Add(7, PacketSignal.Afsk(PacketSignal.Bits(frames), Rate), 0.4)
            .Add(12, PacketSignal.Direct(PacketSignal.Bits([.. frames, .. frames], 120), Rate), 0.3)
            .Add(16, ToneSignals.Dtmf(Digits, Rate, 0.08, 0.08, 0), 0.4)
            .Noise(0.003, 41);
        File.WriteAllBytes(_path, RecordingFiles.Wav(Rate, 16, sound.Samples));
        DiagnosticBag findings = new();
        ListenAnswer answer = ListenService.Run(new ListenQuestion { Path = _path }, findings)!;

        // All of it was read, and its checks hold: else the search below proves nothing.
        Finding[] heard = [.. answer.Heard.Transmissions.SelectMany(static t => t.Kinds)];
        Assert.Equal(
            [SignalKind.Pocsag, SignalKind.Afsk1200, SignalKind.Fsk9600, SignalKind.Dtmf], heard.Select(static f => f.Kind).Order());
        Assert.All(heard.Where(static f => f.Kind != SignalKind.Dtmf), static f => Assert.Equal(f.UnitsChecked, f.UnitsGood));
        Assert.Equal(Digits.Length, heard.Single(static f => f.Kind == SignalKind.Dtmf).UnitsChecked);

        using StringWriter text = new();
        ListenWriter.WriteText(answer, text, TextInk.None);
        using MemoryStream json = new();
        ListenWriter.WriteJson(answer, json);
        using StringWriter csv = new();
        ListenWriter.WriteCsv(answer, csv);
        using StringWriter log = new();
        ListenWriter.WriteLog(answer, log);
        string html = await ListenReport.RenderAsync(answer, new ReportContext
        {
            GeneratedAt = new DateTimeOffset(2031, 3, 4, 20, 0, 0, TimeSpan.Zero),
            ProgramVersion = "0.1.0",
        });
        string[] outputs =
        [
            text.ToString(), Encoding.UTF8.GetString(json.ToArray()), csv.ToString(), log.ToString(), html,
            string.Join('\n', findings.InOrder()),
            answer.ToString(),
            string.Join('\n', heard.Select(static f => f.ToString() + f.Evidence)),
        ];
        string[] secrets =
        [
            .. Page.Split(' '), .. Packet.Split(' '), To, From, Digits, "1597463", "199682" /* x 8 + 7 */, .. Parts(Digits),
        ];

        // The eyes are among what is searched; of dialled digits, whose order would be the number, there is no picture over time.
        Assert.Contains("Eye of paging", html, StringComparison.Ordinal);
        Assert.Contains("Eye of packet, 1200 Bd", html, StringComparison.Ordinal);
        Assert.Null(heard.Single(static f => f.Kind == SignalKind.Dtmf).Trace);
        foreach (string output in outputs)
        {
            Assert.All(secrets, s => Assert.DoesNotContain(s, output, StringComparison.OrdinalIgnoreCase));
        }
    }

    /// <summary>Digits with signs between them would be no better.</summary>
    private static IEnumerable<string> Parts(string digits) =>
        [string.Join(' ', digits.ToCharArray()), string.Join(',', digits.ToCharArray()), digits[..6]];
}
