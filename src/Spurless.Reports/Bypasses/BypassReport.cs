using Spurless.Circuits.Relays;
using Spurless.Drawing.Relays;
using Spurless.Reports.Html;
using Spurless.Sites.Bypasses;

namespace Spurless.Reports.Bypasses;

/// <summary>The report of a bypass relay: one self-contained page.</summary>
public static class BypassReport
{
    /// <summary>Renders the report.</summary>
    /// <param name="answer">What the relay does.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(BypassAnswer answer, ReportContext context) =>
        PageRenderer.RenderAsync<BypassPage>(new Dictionary<string, object?>
        {
            [nameof(BypassPage.Answer)] = answer,
            [nameof(BypassPage.Context)] = context,
        });

    /// <summary>The picture of one press.</summary>
    /// <param name="answer">What the relay does.</param>
    public static RelayPictureModel Picture(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        RelayRun run = answer.Press.Run;
        string over = answer.Press.AttackS is { } attack
            ? $"The contacts come over {BypassWords.Si(attack, "s")} after the carrier begins"
            : "The contacts do not come over";
        string back = answer.Press.HangS is { } hang ? $" and go back {BypassWords.Si(hang, "s")} after it ends." : ".";
        return new RelayPictureModel
        {
            Title = "The relay coming over and going back, on one time axis",
            Description = $"One press of the key at {BypassWords.Si(answer.Document.PowerW, "W")}. {over}{back}",
            Moments = run.Moments,
            Changes = run.Changes,
            OnS = answer.Press.OnS,
            OperatesA = answer.Document.Circuit.Coil.OperatesA,
            ReleasesA = answer.Document.Circuit.Coil.ReleasesA,
        };
    }
}
