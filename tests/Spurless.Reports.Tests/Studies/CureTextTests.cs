using Spurless.Mixing.Causes;
using Spurless.Reports.Studies;
using Spurless.Sites.Studies;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Studies;

/// <summary>The list by whose work the cure is.</summary>
public sealed class CureTextTests
{
    [Fact]
    public void Groups_put_each_mixture_where_it_is_cured()
    {
        ReceiverFindings receiver = DemoStudy.WithoutFilter().Receivers[0] with
        {
            OtherCauses = [new OtherCause(OutsideMixing.Possible(1)!, Verdict.Unknown)],
        };
        Assert.Equal(
            ["Cured at your receiver", "Cured at the transmitter of telemetry scanner", "Cured by the owner of the structure"],
            CureText.Groups(receiver).Select(static g => g.Heading));
        Assert.Contains("; and 5 more", CureText.Groups(receiver)[0].Lines[0].Says, StringComparison.Ordinal);
        Assert.Contains(
            "made in the transmitter of telemetry scanner; no filter at your receiver removes it",
            CureText.Groups(receiver)[1].Lines[0].Says,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Groups_with_the_filter_leave_what_the_transmitter_makes()
    {
        ReceiverFindings receiver = DemoStudy.WithFilter().Receivers[0];
        Assert.Equal("Cured at the transmitter of telemetry scanner", Assert.Single(CureText.Groups(receiver)).Heading);
        Assert.Null(CureText.OwnTransmitterOff(receiver));
    }
}
