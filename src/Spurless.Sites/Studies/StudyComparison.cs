namespace Spurless.Sites.Studies;

/// <summary>A mixture that both studies list, at different levels.</summary>
/// <param name="Before">In the study compared against.</param>
/// <param name="Now">In this study.</param>
public sealed record ChangedProduct(ProductFinding Before, ProductFinding Now)
{
    /// <summary>Change of the in-channel level, in dB; null where either is unknown.</summary>
    public double? ByDb => Now.InChannelLevelDbm - Before.InChannelLevelDbm;
}

/// <summary>What differs at one receiver.</summary>
/// <param name="Name">The receiver.</param>
/// <param name="Appeared">Mixtures only in this study, worst first.</param>
/// <param name="Went">Mixtures only in the study compared against, worst first.</param>
/// <param name="Changed">Mixtures in both whose level or verdict differs, greatest change first.</param>
/// <param name="Unchanged">Number of mixtures that are the same in both.</param>
/// <param name="Before">The receiver in the study compared against; null where it is new.</param>
/// <param name="Now">The receiver in this study; null where it went.</param>
public sealed record ReceiverComparison(
    string Name,
    IReadOnlyList<ProductFinding> Appeared,
    IReadOnlyList<ProductFinding> Went,
    IReadOnlyList<ChangedProduct> Changed,
    int Unchanged,
    ReceiverFindings? Before,
    ReceiverFindings? Now);

/// <summary>What appeared, went and changed between two studies. Receivers, emitters and mixtures are matched by name.</summary>
/// <param name="Before">The study compared against.</param>
/// <param name="Now">This study.</param>
/// <param name="Receivers">One entry per receiver of either, those of this study first.</param>
public sealed record StudyComparison(StudyResult Before, StudyResult Now, IReadOnlyList<ReceiverComparison> Receivers)
{
    /// <summary>A smaller change of level is none, in dB: the printed digit.</summary>
    public const double LeastChangeDb = 0.05;

    /// <summary>Compares two studies.</summary>
    /// <param name="before">The one compared against.</param>
    /// <param name="now">The one in question.</param>
    public static StudyComparison Of(StudyResult before, StudyResult now)
    {
        IEnumerable<string> names = now.Receivers.Concat(before.Receivers).Select(static r => r.Name).Distinct(StringComparer.Ordinal);
        return new StudyComparison(before, now, [.. names.Select(n => Of(n, Find(before, n), Find(now, n)))]);
    }

    private static ReceiverFindings? Find(StudyResult study, string name) => study.Receivers.FirstOrDefault(r => r.Name == name);

    private static ReceiverComparison Of(string name, ReceiverFindings? before, ReceiverFindings? now)
    {
        Dictionary<ProductRow, ProductFinding> old = [];
        foreach (ProductFinding product in before?.Products ?? [])
        {
            old.TryAdd(product.Row, product);
        }

        List<ProductFinding> appeared = [];
        List<ChangedProduct> changed = [];
        int unchanged = 0;
        foreach (ProductFinding product in now?.Products ?? [])
        {
            if (!old.Remove(product.Row, out ProductFinding? was))
            {
                appeared.Add(product);
            }
            else if (was.Verdict != product.Verdict || Math.Abs((product.InChannelLevelDbm - was.InChannelLevelDbm) ?? 0) >= LeastChangeDb)
            {
                changed.Add(new ChangedProduct(was, product));
            }
            else
            {
                unchanged++;
            }
        }

        return new ReceiverComparison(
            name,
            appeared,
            [.. (before?.Products ?? []).Where(p => old.ContainsKey(p.Row))],
            [.. changed.OrderByDescending(static c => Math.Abs(c.ByDb ?? double.MaxValue))],
            unchanged,
            before,
            now);
    }
}
