using Spurless.Drawing.Words;
using Spurless.Reports.Studies;
using Spurless.Reports.Text;
using Spurless.Sites.Newcomers;
using Spurless.Sites.Studies;
using static Spurless.Reports.Text.TextParagraphs;

namespace Spurless.Reports.Newcomers;

/// <summary>Writes for a terminal what a newcomer does: the answer, the receivers, the conditions, then each receiver's findings.</summary>
public static class NewcomerText
{
    /// <summary>So many mixtures of a receiver are shown; JSON and CSV list all.</summary>
    public const int Shown = 8;

    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes the whole answer.</summary>
    public static void Write(NewcomerAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        NewcomerSites sites = answer.Question.Sites;
        Paragraph(to, $"{sites.Newcomer.Document.Site} at {sites.Site.Document.Site}", ink, TextTone.Strong);
        to.Write('\n');
        Paragraph(to, NewcomerWords.Answer(answer), ink, TextTone.Plain);
        to.Write('\n');
        TextTable table = new(
            new TextColumn("receiver", Wraps: true),
            new TextColumn("whose"),
            new TextColumn("passes"),
            new TextColumn("margin\ndB", TextSide.Right),
            new TextColumn("the worst that is new", Wraps: true));
        foreach (NewcomerReceiver receiver in answer.Receivers)
        {
            table.Add(
                receiver.Findings.Name,
                receiver.OfNewcomer ? "newcomer" : "site",
                new TextCell(NewcomerWords.Passes(receiver), receiver.Passes ? TextTone.Clear : TextTone.Harmful),
                NewcomerWords.Margin(receiver, answer.Question.Options.HarmfulFromDb, Signs),
                NewcomerWords.Worst(receiver, Signs));
        }

        table.WriteTo(to, ink);
        Conditions(answer, to, ink);
        foreach (NewcomerReceiver receiver in answer.Receivers.Where(static r => r.Findings.Products.Count + r.Causes.Count > 0))
        {
            Receiver(receiver, to, ink);
        }

        Lines("Not known, and what would tell", NewcomerWords.NotKnown(answer).Select(static l => (l, TextTone.Faint)), to, ink);
    }

    private static void Conditions(NewcomerAnswer answer, TextWriter to, TextInk ink)
    {
        NewcomerReceiver[] failing = [.. answer.Receivers.Where(static r => r.Needs.Count > 0)];
        if (failing.Length == 0)
        {
            return;
        }

        to.Write('\n');
        Paragraph(to, "Before it goes on the air", ink, TextTone.Strong);
        foreach (NewcomerReceiver receiver in failing)
        {
            foreach ((NewcomerNeed need, string says) in receiver.Needs.Zip(NewcomerWords.Conditions(answer, receiver)))
            {
                Paragraph(to, $"- For {receiver.Findings.Name}, by {NewcomerWords.Whose(need)}: {says}", ink, TextTone.Plain, hanging: 2);
            }
        }

        Paragraph(
            to, "Each is the least, in tenths of a dB, by studying the site again with it put in; the levels it rests on have an "
                + "uncertainty, so ask for more.",
            ink, TextTone.Faint);
    }

    private static void Receiver(NewcomerReceiver receiver, TextWriter to, TextInk ink)
    {
        ReceiverFindings findings = receiver.Findings;
        to.Write('\n');
        Paragraph(
            to, $"{findings.Name}, {Figures.MegahertzExact(findings.FrequencyHz)} MHz, noise "
                + $"{Figures.Db(findings.NoiseFloorDbm, Signs)} dBm",
            ink, TextTone.Strong);
        if (findings.Products.Count > 0)
        {
            to.Write('\n');
            MixtureTable.Of(findings, NumberedFinding.Of(findings).Take(Shown), Signs).WriteTo(to, ink);
            if (findings.Products.Count > Shown)
            {
                Paragraph(
                    to, $"{Figures.Count(Shown, Signs)} of {Figures.Count(findings.Products.Count, Signs)} new mixtures are shown; "
                        + "--format csv lists them all.",
                    ink, TextTone.Faint);
            }
        }

        NewCause[] causes = [.. receiver.Causes.Where(static c => !c.Cause.OnlyUsual)];
        Lines("Other new causes", causes.Select(c => (ImpactWords.Of(c.Cause) + ": " + NewcomerWords.Says(receiver, c),
            MixtureTable.Tone(c.Cause.Verdict))), to, ink);
        Lines("Assumed", NewcomerWords.Assumed(receiver, Shown).Select(static l => (l, TextTone.Faint)), to, ink);
    }

    private static void Lines(string heading, IEnumerable<(string Says, TextTone Tone)> lines, TextWriter to, TextInk ink)
    {
        (string Says, TextTone Tone)[] all = [.. lines];
        if (all.Length == 0)
        {
            return;
        }

        to.Write('\n');
        Paragraph(to, heading, ink, TextTone.Strong);
        foreach ((string says, TextTone tone) in all)
        {
            Paragraph(to, "- " + says, ink, tone, hanging: 2);
        }
    }
}
