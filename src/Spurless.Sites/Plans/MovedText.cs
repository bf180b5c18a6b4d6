using Spurless.Files.Yaml.Editing;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Plans;

/// <summary>
/// Writes a receiver's other channel into the text of a site file, with the transmitters that follow it; comments and all else stay.
/// </summary>
public static class MovedText
{
    /// <summary>The text of a site whose receiver stands elsewhere: what <see cref="MovedSite"/> is, written.</summary>
    /// <param name="text">The site file's text.</param>
    /// <param name="site">The site as read of it.</param>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="frequencyHz">Where it is to stand, in hertz, above 0.</param>
    /// <param name="shiftHz">Transmit less receive frequency in hertz; null where each transmitter keeps its distance.</param>
    /// <returns>The text; null where it cannot be written into this file.</returns>
    public static string? Of(string text, SiteDocument site, int receiver, long frequencyHz, long? shiftHz)
    {
        ArgumentNullException.ThrowIfNull(site);
        ReceiverEntry entry = site.Receivers[receiver];
        string? edited = Set(text, YamlPath.Root.Key("receivers").Item(receiver), frequencyHz);
        foreach (int own in MovedSite.Own(site, receiver))
        {
            edited = edited is null ? null : Set(
                edited, YamlPath.Root.Key("emitters").Item(own), frequencyHz + MovedSite.ShiftHz(site.Emitters[own], entry, shiftHz));
        }

        return edited;
    }

    private static string? Set(string text, YamlPath at, long hertz) => YamlEditor.TrySet(
        text, at.Key("frequency"), YamlValue.Of(MegahertzText.Of(hertz, 0, 6) + " MHz"), out string? edited, out _) ? edited : null;
}
