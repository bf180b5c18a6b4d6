namespace Spurless.Signals.Recognition.Tones;

/// <summary>Letters, figures and signs of Morse after ITU-R M.1677-1 (the letters' codes from memory).</summary>
internal static class MorseAlphabet
{
    private static readonly Dictionary<string, char> _signs = new()
    {
        [".-"] = 'A',
        ["-..."] = 'B',
        ["-.-."] = 'C',
        ["-.."] = 'D',
        ["."] = 'E',
        ["..-."] = 'F',
        ["--."] = 'G',
        ["...."] = 'H',
        [".."] = 'I',
        [".---"] = 'J',
        ["-.-"] = 'K',
        [".-.."] = 'L',
        ["--"] = 'M',
        ["-."] = 'N',
        ["---"] = 'O',
        [".--."] = 'P',
        ["--.-"] = 'Q',
        [".-."] = 'R',
        ["..."] = 'S',
        ["-"] = 'T',
        ["..-"] = 'U',
        ["...-"] = 'V',
        [".--"] = 'W',
        ["-..-"] = 'X',
        ["-.--"] = 'Y',
        ["--.."] = 'Z',
        ["-----"] = '0',
        [".----"] = '1',
        ["..---"] = '2',
        ["...--"] = '3',
        ["....-"] = '4',
        ["....."] = '5',
        ["-...."] = '6',
        ["--..."] = '7',
        ["---.."] = '8',
        ["----."] = '9',
        [".-.-.-"] = '.',
        ["--..--"] = ',',
        ["---..."] = ':',
        ["..--.."] = '?',
        [".----."] = '\'',
        ["-....-"] = '-',
        ["-..-."] = '/',
        ["-.--."] = '(',
        ["-.--.-"] = ')',
        [".-..-."] = '"',
        ["-...-"] = '=',
        [".-.-."] = '+',
        [".--.-."] = '@',
    };

    /// <summary>The sign of a group of dots and dashes, or null.</summary>
    public static char? Of(string elements) => _signs.TryGetValue(elements, out char sign) ? sign : null;
}
