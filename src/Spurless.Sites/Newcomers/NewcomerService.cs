using Spurless.Mixing.Search;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Newcomers;

/// <summary>Answers whom a newcomer would hurt at a site, who would hurt him, and what would prevent it.</summary>
public static class NewcomerService
{
    /// <summary>Studies the site and the newcomer apart and together, and for each receiver that does not pass what it needs.</summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told how far each search has come, or null.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <returns>What is new, receiver by receiver; a refusal where a list would be longer than is made.</returns>
    public static Outcome<NewcomerAnswer> Ask(
        NewcomerQuestion question, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        NewcomerSites sites = question.Sites;
        HashSet<string> siteEmitters = new(sites.Site.Document.Emitters.Select(static e => e.Name), StringComparer.Ordinal);
        try
        {
            JointStudy study = new(sites, question.Options, progress, cancellationToken);
            IReadOnlyList<NewcomerReceiver> all = study.All();
            return new NewcomerAnswer(question, [.. all.Select((receiver, r) => receiver.Passes ? receiver : receiver with
            {
                Needs = new NeedSearch(study, r, siteEmitters, question.Options.HarmfulFromDb).Of(receiver),
            })]);
        }
        catch (TooManyProductsException e)
        {
            return e.Refusal;
        }
    }
}
