using System.Globalization;

namespace Spurless.Pages.Shell;

/// <summary>Numbers that stand in a page's address. Whoever typed something else there gets the page as if nothing stood there.</summary>
internal static class AddressNumber
{
    /// <summary>A whole number from 0 on; null where there is none.</summary>
    public static int? Of(string? text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : null;
}
