using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Tests.Documents;

public sealed class BandPlanReaderTests
{
    [Fact]
    public void Read_takes_parts_in_any_order_of_columns()
    {
        DiagnosticBag findings = new();
        BandPlan plan = BandPlanReader.Read(
            "# invented\nuse;from;to\nforbidden;145.2 MHz;145.25 MHz\nreceive only;144 MHz;144.5 MHz\n"u8, "p.csv", findings)!;
        Assert.Empty(findings.InOrder());
        Assert.Equal([BandUse.Forbidden, BandUse.ReceiveOnly], plan.Parts.Select(static p => p.Use));
        Assert.Equal(145_200_000, plan.Parts[0].From.Hertz);

        // A channel of 12.5 kHz whose edge is that of the part is out of it.
        Assert.Null(plan.AgainstReceiving(145_193_750, 12_500));
        Assert.NotNull(plan.AgainstReceiving(145_193_751, 12_500));
        Assert.Null(plan.AgainstReceiving(144_100_000, 12_500));
        Assert.NotNull(plan.AgainstTransmitting(144_100_000, 12_500));
    }

    [Theory]
    [InlineData("from,too,use\n", 1, 6, "write 'to'")]
    [InlineData("from,to\n145 MHz,146 MHz\n", 1, 1, "head the table from,to,use")]
    [InlineData("from,to,use\n145,146 MHz,any\n", 2, 1, "MHz")]
    [InlineData("from,to,use\n146 MHz,145 MHz,any\n", 2, 9, "write the lower edge under 'from'")]
    [InlineData("from,to,use\n145 MHz,146 MHz,beacons\n", 2, 17, "write any, receive only, transmit only or forbidden")]
    [InlineData("from,to,use\n145 MHz,146 MHz,\n", 2, 17, "write any, receive only, transmit only or forbidden")]
    public void Read_says_where_and_what_to_write(string text, int line, int column, string remedy)
    {
        DiagnosticBag findings = new();
        Assert.Null(BandPlanReader.Read(Encoding.UTF8.GetBytes(text), "p.csv", findings));
        Assert.Contains(
            findings.InOrder(), f => f.Line == line && f.Column == column && f.Remedy.Contains(remedy, StringComparison.Ordinal));
    }

    [Fact]
    public void Of_a_table_with_its_heads_is_a_band_plan()
    {
        Assert.Equal(FileKind.BandPlan, FileKinds.Of("two-metre.csv", "from,to,use\n"u8));
        Assert.Equal(FileKind.EmitterTable, FileKinds.Of("two-metre.csv", "name,frequency\n"u8));
    }
}
