using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>How weak a signal the receiver hears at its antenna, and what a change of the chain did to that, in sentences.</summary>
public static class SensitivityWords
{
    /// <summary>Less than this is no difference, in dB: the printed digit.</summary>
    private const double LeastDb = 0.05;

    /// <summary>
    /// What it takes at the antenna connector for 12 dB SINAD, before and after; and whether the change cost more than it cured.
    /// </summary>
    /// <param name="receiver">The findings.</param>
    /// <param name="typography">The signs to use.</param>
    /// <param name="words">What before and after are called; the filter's where null.</param>
    public static string Of(ReceiverFindings receiver, Typography typography, ComparisonWords? words = null)
    {
        words ??= ComparisonWords.Filter;
        string Dbm(double dbm) => Figures.Db(dbm, typography) + typography.Space + "dBm";
        string now = $"Where no mixture is on the air, 12 dB SINAD takes {Dbm(receiver.SensitivityAtAntennaDbm)} at the antenna connector";
        if (receiver.WithoutFilter is not { } before)
        {
            return now + ".";
        }

        string both = $"{now}; {words.Before} {Dbm(before.SensitivityAtAntennaDbm)}.";
        return receiver.FilterGainDb switch
        {
            { } cost and < -LeastDb => $"{both} This change costs more than it cures: with all that is known on the air a signal has to be "
                + $"{Figures.BareDb(-cost)}{typography.Space}dB stronger than before.",
            { } gain and > LeastDb => $"{both} With all that is known on the air a signal may be "
                + $"{Figures.BareDb(gain)}{typography.Space}dB weaker than before.",
            null when receiver.ProductsLeftOut > 0 || before.ProductsLeftOut > 0 =>
                $"{both} Whether it costs more than it cures cannot be told here: the list was cut, and what was left out is in no sum.",
            null => $"{both} Whether it costs more than it cures is not known, as a level at this receiver is not.",
            _ => $"{both} With all that is known on the air it makes no difference to a signal.",
        };
    }
}
