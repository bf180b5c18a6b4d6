using CsCheck;
using Spurless.Radio.Quantities;
using Spurless.Tests.Common;
using Spurless.Workbench.Desk;

namespace Spurless.Workbench.Tests.Desk;

/// <summary>What a page moves and keeps is what the next page, opened on the files that were written, shows at the same place.</summary>
public sealed class DeskRoundTripTests
{
    private static StudyDesk Open(string site, DeskFiles files)
    {
        StudyDesk? desk = StudyDesk.Open(site, "desk.site.yaml", files, DeskFiles.Offered, out var diagnostics);
        Assert.True(desk is not null, string.Join('\n', diagnostics) + "\n" + site);
        return desk;
    }

    private static StudyDesk Kept(StudyDesk desk, DeskSettings settings, string site = DeskFiles.Site)
    {
        DeskFiles files = new();
        foreach (KeptFile file in desk.Keep(settings, out string? problem))
        {
            Assert.Null(problem);
            if (file.Path.Length == 0)
            {
                site = file.Text;
            }
            else
            {
                files[file.Path] = file.Text;
            }
        }

        return Open(site, files);
    }

    private static readonly StudyDesk _desk = Open(DeskFiles.Site, new DeskFiles());

    public static TheoryData<string> Moved => [.. _desk.Items.Where(static i => !i.IsSwitch && i.Id != "0.add.attenuator"
        && i.Id != "1.add.attenuator").Select(static i => i.Id)];

    [Theory]
    [MemberData(nameof(Moved))]
    public void A_value_that_is_kept_stands_there_when_the_files_are_opened_again(string id)
    {
        DeskItem item = _desk.Items.Single(i => i.Id == id);
        Gen.Double[item.Low, item.High].Sample(
            value =>
            {
                double snapped = item.Snapped(value);
                if (!item.Takes(snapped))
                {
                    return;
                }

                StudyDesk after = Kept(_desk, DeskSettings.None.With(item, snapped));
                DeskItem found = after.Items.Single(i => i.Id == id);

                // A unit of another prefix may suit the new value better: it is the quantity that stays.
                Assert.Equal(Plain(item, snapped), Plain(found, found.FileValue), 1e-9 * Math.Max(1e-6, Math.Abs(Plain(item, snapped))));
                Assert.True(found.IsStated || snapped.Equals(item.FileValue));

                // And nothing else has moved.
                foreach (DeskItem other in _desk.Items.Where(i => i.Id != id && i.IsStated && !i.IsSwitch))
                {
                    DeskItem same = after.Items.Single(i => i.Id == other.Id);
                    Assert.Equal((other.FileValue, other.Unit), (same.FileValue, same.Unit));
                }

                // Moved back and kept, it is as it was at first.
                StudyDesk back = Kept(_desk, DeskSettings.None);
                Assert.Equal(item.FileValue, back.Items.Single(i => i.Id == id).FileValue);
            },
            iter: 2,
            test: id);
    }

    private static double Plain(DeskItem item, double value) => item.Unit switch
    {
        "pF" or "nF" or "uF" => Capacitance.Parse(item.Written(value)).Farads * 1e12,
        "nH" or "uH" => Inductance.Parse(item.Written(value)).Henries * 1e9,
        "mohm" or "ohm" or "kohm" => Resistance.Parse(item.Written(value)).Ohms,
        "mm" or "m" or "cm" => Length.Parse(item.Written(value)).Metres * 1e3,
        _ => value,
    };

    /// <summary>A filter taken out is offered again, and put in again it is where it was; the chain holds as many as before.</summary>
    [Fact]
    public void A_filter_taken_out_is_offered_and_comes_back()
    {
        DeskItem filter = _desk.Items.Single(static i => i.IsSwitch && i.FileValue > 0);
        Assert.StartsWith("0.chain.", filter.Id, StringComparison.Ordinal);
        StudyDesk without = Kept(_desk, DeskSettings.None.With(filter, 0));
        DeskItem offered = without.Items.Single(static i => i.Id == "0.add.filters/parts.circuit.yaml");
        Assert.Equal((true, 0.0), (offered.IsSwitch, offered.FileValue));
        Assert.Equal(_desk.Site.Document.Receivers[0].Chain.Count - 1, without.Site.Document.Receivers[0].Chain.Count);
        StudyDesk with = Open(DeskFiles.Site, new DeskFiles());
        Assert.Equal(_desk.Site.Document.Receivers[0].Chain.Count, with.With(DeskSettings.None).Document.Receivers[0].Chain.Count);
        Assert.Equal(
            _desk.Site.Document.Receivers[0].Chain.Count,
            without.With(DeskSettings.None.With(offered, 1)).Document.Receivers[0].Chain.Count);
    }

    /// <summary>Without its filters a receiver's chain has no switch on, whatever else is moved.</summary>
    [Fact]
    public void WithoutFilters_leaves_none_in()
    {
        for (int r = 0; r < _desk.Receivers.Count; r++)
        {
            DeskSettings bare = _desk.WithoutFilters(r);
            Assert.All(_desk.Receivers[r].Select(static s => s.Switch).OfType<DeskItem>(), i => Assert.Equal(0, bare.Of(i)));
            Assert.Equal(bare, DeskSettings.Parse(bare.ToString()));
            Assert.Equal(
                _desk.Site.Document.Receivers[r].Chain.Count - _desk.Receivers[r].Count(static s => s.Switch is { FileValue: > 0 }),
                _desk.With(bare).Document.Receivers[r].Chain.Count);
        }
    }
}
