using System.Text.Json;
using Spurless.Reports.Studies;
using Spurless.Reports.Text;
using Spurless.Sites.Chains;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Studies;

public sealed class FilterTextTests
{
    // The figures stand in the fixture: -40 dBm behind 12.3 dB of filter are -27.7 dBm without it.
    private static ReceiverFindings Receiver(FilterRejection? rejection)
    {
        ReceiverFindings receiver = DemoStudy.Receiver(filter: true, []);
        return receiver with
        {
            Carriers =
            [
                .. receiver.Carriers.Select((c, i) => c with { LevelAtReceiverDbm = i == 0 ? null : -40 - i, Rejection = rejection }),
            ],
        };
    }

    [Fact]
    public void Write_without_a_filter_writes_nothing()
    {
        StringWriter output = new();
        FilterText.Write(Receiver(null), output, TextInk.None);
        Assert.Equal("", output.ToString());
    }

    [Fact]
    public void Write_with_a_filter_shows_each_carrier_before_and_after_with_its_band()
    {
        StringWriter output = new();
        ReceiverFindings receiver = Receiver(new FilterRejection(12.3, 4.5, 17.9));
        FilterText.Write(receiver, output, TextInk.None);
        string[] lines = output.ToString().Split('\n');
        string[] rows = [.. lines.Where(static l => l.Contains("4.5 .. 17.9", StringComparison.Ordinal))];
        Assert.Equal(Math.Min(receiver.Carriers.Count, StudyText.Shown), rows.Length);
        string[] cells = rows[0].Split("  ", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        Assert.Equal(["-28.7", "-41.0", "12.3", "4.5 .. 17.9", receiver.Carriers[1].Emitter], cells[1..]);
        Assert.Contains("unknown", rows[^1], StringComparison.Ordinal);
        Assert.All(lines, static l => Assert.True(l.Length <= TextFlow.DefaultWidth, l));
    }

    [Fact]
    public void Write_of_a_carrier_outside_the_sweep_says_that_it_was_not_measured()
    {
        StringWriter output = new();
        FilterText.Write(Receiver(new FilterRejection(0, null, null)), output, TextInk.None);
        Assert.Contains("not measured", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Json_has_the_rejection_and_its_band_and_null_without_a_filter()
    {
        JsonElement with = Carrier(Receiver(new FilterRejection(12.3, 4.5, 17.9)));
        Assert.Equal(12.3, with.GetProperty("filter_rejection_db").GetDouble());
        Assert.Equal(4.5, with.GetProperty("filter_rejection_low_db").GetDouble());
        Assert.Equal(17.9, with.GetProperty("filter_rejection_high_db").GetDouble());
        JsonElement without = Carrier(Receiver(null));
        Assert.Equal(JsonValueKind.Null, without.GetProperty("filter_rejection_db").ValueKind);
        Assert.Equal(JsonValueKind.Null, without.GetProperty("filter_rejection_low_db").ValueKind);
        Assert.Equal(JsonValueKind.Null, without.GetProperty("filter_rejection_high_db").ValueKind);
    }

    private static JsonElement Carrier(ReceiverFindings receiver)
    {
        using MemoryStream stream = new();
        StudyJson.Write(DemoStudy.Result(receiver), stream);
        return JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("receivers")[0].GetProperty("carriers")[0];
    }
}
