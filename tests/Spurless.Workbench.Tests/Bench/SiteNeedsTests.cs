using CsCheck;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Workbench.Bench;

namespace Spurless.Workbench.Tests.Bench;

/// <summary>What a site needs of a filter: enough for every mixture, and no more than the worst of each carrier.</summary>
public sealed class SiteNeedsTests
{
    [Fact]
    public void Of_any_study_a_filter_that_gives_what_is_needed_brings_every_mixture_under_the_limit() =>
        Gen.Select(RandomStudies.Receiver(20), Gen.Double[-20, 5]).Sample(static (receiver, limit) =>
        {
            SiteNeeds needs = SiteNeeds.Of(receiver, limit);
            Dictionary<int, double> taken = needs.Needs.ToDictionary(static n => n.Emitter, static n => n.NeededDb);
            double Lost(Term term) => taken.GetValueOrDefault(term.Emitter);
            ProductFinding[] over = [.. receiver.Products.Where(p => p.OverNoiseDb > limit)];
            foreach (ProductFinding p in over.Where(static p => p.Mechanism == Mechanism.Receiver))
            {
                // A mixture falls by |k| dB for each dB that its carrier loses; one of our own transmitter alone has nobody to weaken.
                Term[] others = [.. p.Terms.Where(t => receiver.Carriers[t.Emitter].Follows != receiver.Name)];
                if (others.Length > 0)
                {
                    double now = p.OverNoiseDb!.Value - others.Sum(t => Math.Abs(t.Coefficient) * Lost(t));
                    Assert.True(now <= limit + 1e-9, $"{p.OverNoiseDb} dB falls to {now}, the limit is {limit}");
                }
            }

            Assert.Equal(over.Count(static p => p.Mechanism != Mechanism.Receiver), needs.MadeElsewhere);

            // Each need is the equal share of one mixture at least: take a little less from all, and one is over.
            foreach (CarrierNeed need in needs.Needs)
            {
                Assert.Contains(
                    over.Where(p => p.Mechanism == Mechanism.Receiver && p.Terms.Any(t => t.Emitter == need.Emitter)),
                    p => Math.Abs(((p.OverNoiseDb!.Value - limit) / p.Terms.Where(
                        t => receiver.Carriers[t.Emitter].Follows != receiver.Name).Sum(static t => Math.Abs(t.Coefficient)))
                        - need.NeededDb) < 1e-9);
                Assert.NotEqual(receiver.Name, receiver.Carriers[need.Emitter].Follows);
            }

            Assert.Equal(needs.Needs.Select(static n => n.FrequencyHz).Order(), needs.Needs.Select(static n => n.FrequencyHz));
        });
}
