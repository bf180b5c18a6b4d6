namespace Spurless.Sites.Surveys;

/// <summary>What has to be said of a survey beside its figures. Its sentence is made where it is shown.</summary>
public abstract record SurveyRemark
{
    private SurveyRemark()
    {
    }

    /// <summary>The noise of a sweep is higher than behind the pad.</summary>
    /// <param name="File">The sweep.</param>
    /// <param name="RiseDb">By how much.</param>
    public sealed record NoiseAbovePadded(string File, double RiseDb) : SurveyRemark;

    /// <summary>The noise of a sweep moves from row to row.</summary>
    /// <param name="File">The sweep.</param>
    /// <param name="RangeDb">From the least to the most.</param>
    public sealed record NoiseMoves(string File, double RangeDb) : SurveyRemark;

    /// <summary>The noise bandwidth of the bins was not given: their spacing is counted.</summary>
    public sealed record SpacingCounted : SurveyRemark;

    /// <summary>Lines tell the instrument's third-order intercept.</summary>
    /// <param name="ByPad">Whether they are its own for certain, by a sweep behind a pad; else they are marked.</param>
    /// <param name="Lines">How many.</param>
    /// <param name="Dbm">What they tell, at its input.</param>
    /// <param name="SpreadDb">One sigma of what each tells.</param>
    public sealed record InterceptTold(bool ByPad, int Lines, double Dbm, double SpreadDb) : SurveyRemark;

    /// <summary>Nothing tells apart what the instrument itself made.</summary>
    public sealed record NothingTellsApart : SurveyRemark;

    /// <summary>The sweep behind the pad tells of one sweep only.</summary>
    /// <param name="File">That one.</param>
    /// <param name="ElsewhereMarked">Whether elsewhere what the instrument would make is marked.</param>
    public sealed record PadTellsOf(string File, bool ElsewhereMarked) : SurveyRemark;

    /// <summary>Maxima were held.</summary>
    public sealed record MaximaHeld : SurveyRemark;

    /// <summary>Nothing was said of what lies between the antenna connector and the instrument: levels are those at the latter.</summary>
    public sealed record AtInstrument : SurveyRemark;

    /// <summary>Figures of the chain do not cover the sweeps.</summary>
    /// <param name="Parts">Whose.</param>
    public sealed record ChainTooShort(IReadOnlyList<string> Parts) : SurveyRemark;

    /// <summary>What the spectrum of a recording was taken with.</summary>
    /// <param name="File">The recording.</param>
    /// <param name="ResolutionHz">Noise bandwidth of its bins.</param>
    /// <param name="Rows">How many rows.</param>
    /// <param name="SecondsEach">How long each is.</param>
    public sealed record RecordedRows(string File, double ResolutionHz, int Rows, double SecondsEach) : SurveyRemark;

    /// <summary>What a recording's full scale is in dBm was not given.</summary>
    /// <param name="File">The recording.</param>
    public sealed record FullScaleUnknown(string File) : SurveyRemark;

    /// <summary>Samples of a recording stand at full scale.</summary>
    /// <param name="File">The recording.</param>
    /// <param name="Share">Which share of them.</param>
    public sealed record Clipped(string File, double Share) : SurveyRemark;
}
