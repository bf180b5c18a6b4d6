using System.Text;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Tests.Documents;

public sealed class ObservationLogTests
{
    private static readonly SiteDocument _site =
        SiteReader.Read(TestData.Read("site", "example.site.yaml"), "s", StubFiles.OfExample).Document!;

    private static (ObservationLog? Log, string Findings) Read(string text)
    {
        DiagnosticBag bag = new();
        ObservationLog? log = ObservationLogReader.Read(Encoding.UTF8.GetBytes(text), "l", _site, bag);
        return (log, string.Join("\n", bag.InOrder()));
    }

    [Fact]
    public void Read_example_of_the_format_gives_its_rows_and_spans()
    {
        (ObservationLog? log, string findings) = Read(
            "# invented\ntime,repeater input,paging mast,waterworks base\n2031-03-04T19:02:00Z,1,1,1\n2031-03-04T19:02:30Z,0,,1\n"
                + "2031-03-04T21:03:30+02:00,,,\n2031-03-04T19:04:00.5Z,1,0,0\n");
        Assert.Equal("", findings);
        Assert.Equal(["repeater input", "paging mast", "waterworks base"], log!.Names);
        Assert.Equal([true, true, true], log.Rows[0].On);
        Assert.Equal([false, null, true], log.Rows[1].On);
        Assert.Equal([3, 4], log.Spans().Select(s => s.Row.Line));
        Assert.Equal([30.0, 60.0], log.Spans().Select(s => s.Held.TotalSeconds));
    }

    [Fact]
    public void Read_times_without_a_zone_are_taken_alike() =>
        Assert.Equal(
            [90.0],
            Read("time;repeater input;paging mast\n2031-03-04 19:02;1;0\n2031-03-04 19:03:30;0;0\n").Log!.Spans().Select(
                s => s.Held.TotalSeconds));

    [Theory]
    [InlineData(
        "time,repeater imput,paging mast\n2031-03-04T19:02:00Z,1,1\n",
        "l:1:1: no column is headed with the name of a receiver; add one that says when the interference was heard\nl:1:6: "
            + "the site has no receiver or emitter 'repeater imput'; write 'repeater input'")]
    [InlineData(
        "when,repeater input\n2031-03-04T19:02:00Z,1\n",
        "l:1:1: the first column is headed 'when'; head it 'time', with moments such as 2031-03-04T19:02:00Z below\nl:1:1: "
            + "no column is headed with the name of an emitter; add one for each emitter that was observed")]
    [InlineData(
        "time,repeater input,paging mast\n4.3.2031 "
            + "19:02,1,1\n2031-03-04T19:02:00Z,yes,2\n2031-03-04T19:01:00Z,1,1\n2031-03-04T19:05:00,1,1\n,1,1\n",
        "l:2:1: '4.3.2031 19:02' is not a time; write it as in 2031-03-04T19:02:00Z\nl:3:22: 'yes' is no observation; "
            + "write 1 for on (for a receiver: heard), 0 for off, nothing for not observed\nl:3:26: '2' is no observation; "
                + "write 1 for on (for a receiver: heard), 0 for off, nothing for not observed\nl:4:1: "
                    + "'2031-03-04T19:01:00Z' is not later than the row above; put the rows in the order of time, "
                        + "each moment once\nl:5:1: this time states no zone, and those above do; write all times alike, "
                            + "best with a Z for UTC\nl:6:1: the row has no time; write it as in 2031-03-04T19:02:00Z")]
    public void Read_bad_log_is_reported_whole(string text, string expected)
    {
        (ObservationLog? log, string findings) = Read(text);
        Assert.Null(log);
        Assert.Equal(expected, findings);
    }

    [Fact]
    public void Read_noise_never_throws() =>
        Gen.Char["time,repeater input01:-TZ;\n\"#2\u0000"].Array[0, 60].Select(c => new string(c)).Sample(
        text =>
        {
            (ObservationLog? log, string findings) = Read(text);
            Assert.True(log is not null || findings.Length > 0);
        },
        iter: 5_000);
}
