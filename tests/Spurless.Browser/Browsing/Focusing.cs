using Microsoft.Playwright;

namespace Spurless.Browser.Browsing;

/// <summary>Going to a field as Tab would.</summary>
internal static class Focusing
{
    /// <summary>
    /// Gives the focus to something once it can have it: before its page is live every control is disabled, and what is disabled takes no
    /// focus, without a word; keys pressed then would go nowhere.
    /// </summary>
    public static async Task TakeFocusAsync(this ILocator what)
    {
        await Assertions.Expect(what).ToBeEnabledAsync();
        await what.FocusAsync();
        await Assertions.Expect(what).ToBeFocusedAsync();
    }
}
