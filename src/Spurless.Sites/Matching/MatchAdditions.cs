using Spurless.Sites.Documents;
using Spurless.Sites.Registers;
using Spurless.Sites.Surveys;

namespace Spurless.Sites.Matching;

/// <summary>What measured emitters and licences together add to a site file: every transmitter once.</summary>
public static class MatchAdditions
{
    /// <summary>
    /// What is joined stands as the licence with the measured level; what is ambiguous or unexplained as a line of the survey; a licence
    /// that was joined to an emitter of the site, or may be one, is not added beside it; other licences stand as predicted.
    /// </summary>
    /// <param name="site">The site.</param>
    /// <param name="near">The licences.</param>
    /// <param name="match">What was joined.</param>
    /// <param name="resolutionHz">What width the survey could see at all, in hertz.</param>
    public static IReadOnlyList<SiteAddition> Of(SiteDocument site, NearAnswer near, MatchAnswer match, double resolutionHz)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(near);
        ArgumentNullException.ThrowIfNull(match);
        List<SiteAddition> additions = [];
        HashSet<NearEmitter> taken = new(ReferenceEqualityComparer.Instance);
        foreach (EmitterMatch m in match.Matches)
        {
            if (m.Outcome != MatchOutcome.Unexplained)
            {
                taken.UnionWith(
                    m.Outcome == MatchOutcome.Joined ? [m.Candidates[0].Licensed] : m.Candidates.Select(static c => c.Licensed));
            }

            if (m.Measured is not { Line: { } line, IsDoubtful: false } || SurveyService.InSite(site, line) is not null)
            {
                continue;
            }

            additions.Add(m.Outcome == MatchOutcome.Joined
                ? NearService.Addition(
                    m.Candidates[0].Licensed,
                    new MeasuredFigures(m.Measured.LevelDbm, m.Measured.SigmaDb, line.Line.OnShare))
                : Unjoined(m, line, resolutionHz));
        }

        return [.. additions, .. near.Emitters.Where(e => !taken.Contains(e)).Select(NearService.Addition)];
    }

    private static SiteAddition Unjoined(EmitterMatch match, SurveyedEmitter line, double resolutionHz)
    {
        SiteAddition addition = SurveyService.Addition(line, resolutionHz);
        return match.Outcome != MatchOutcome.Unexplained && addition.Origin is AdditionOrigin.Survey survey
            ? addition with
            {
                Origin = survey with
                {
                    MayBe = [.. match.Candidates.Take(4).Select(static c => (c.Licensed.Name, c.Licensed.Record.Licence))],
                },
            }
            : addition;
    }
}
