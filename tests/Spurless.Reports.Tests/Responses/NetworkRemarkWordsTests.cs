using Spurless.Circuits.Measured;
using Spurless.Reports.Responses;

namespace Spurless.Reports.Tests.Responses;

public class NetworkRemarkWordsTests
{
    public static TheoryData<NetworkRemark, string> Sentences => new()
    {
        {
            // 20 lg 1.5 = 3.5218 dB.
            new NetworkRemark.GivesOutPower(new Passivity(1.5, 145.05e6)),
            "measured as giving out more than it gets (largest singular value 1.5000, 3.52 dB, at 145.05 MHz); used as it stands"
        },
        {
            new NetworkRemark.PhaseTurns(true, 63.4, 144e6, 145e6, 1.4, 236.6e3),
            "swept too sparsely: the phase of S21 turns by 63 degrees from 144.0 to 145.0 MHz, so between these points the curve is 1.4 dB "
                + "uncertain; sweep in steps of 200 kHz there"
        },
        {
            new NetworkRemark.DelayAmbiguous(false, 171.2),
            "swept too sparsely: the phase of S11 turns by up to 171 degrees from point to point, so delays are ambiguous by whole turns; "
                + "sweep in smaller steps"
        },
        {
            new NetworkRemark.NarrowNotches([new(145e6, null, 71.2, 30.1, 28.4)], 50e3),
            "swept too sparsely: a notch narrower than the steps at 145.0 MHz (71 dB there, 30 and 28 dB beside); its depth and place, and "
                + "the loss between these points, are not known; sweep in steps of 50 kHz there"
        },
        {
            new NetworkRemark.NarrowNotches([.. Enumerable.Repeat(new NarrowNotch(145e6, 145.5e6, 31.2, null, 28.4), 5)], 50e3),
            "swept too sparsely: a notch narrower than the steps between 145.0 and 145.5 MHz (31 and 28 dB), between 145.0 and 145.5 MHz "
                + "(31 and 28 dB), between 145.0 and 145.5 MHz (31 and 28 dB) and 2 more; its depth and place, and the loss between these "
                + "points, are not known; sweep in steps of 50 kHz there"
        },
        { new NetworkRemark.LeakageDecides(70), "beyond 70 dB what leaks round an unscreened circuit decides" },
    };

    [Theory]
    [MemberData(nameof(Sentences))]
    public void Of_a_remark_says_the_figures(NetworkRemark remark, string says) => Assert.Equal(says, NetworkRemarkWords.Of(remark));
}
