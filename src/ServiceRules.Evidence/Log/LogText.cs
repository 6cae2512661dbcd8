using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text;

namespace ServiceRules.Evidence.Log;

/// <summary>What the texts of a log have in common: strict UTF-8 in whole lines, numbers, and how faults are told.</summary>
internal static class LogText
{
    /// <summary>The longest text, 256 KiB: sixteen signatures of the largest kind that C2SP knows fit three times.</summary>
    public const int BytesMost = 256 * 1024;

    /// <summary>The most faults told of one text: whoever has to mend more has the wrong file.</summary>
    public const int FaultsMost = 20;

    public const string AcceptedNumber =
        "a decimal number from 0 to 9223372036854775807 without leading zeros";

    private const int QuotedMost = 80;

    // Throws on what is no Unicode, so that signed bytes and text never differ.
    private static readonly UTF8Encoding Strict = new(
        encoderShouldEmitUTF8Identifier: false,
        throwOnInvalidBytes: true
    );

    public static byte[] Encode(string text) => Strict.GetBytes(text);

    /// <summary>The text of the bytes if it is made of whole lines without control characters.</summary>
    public static bool TryDecode(
        ReadOnlySpan<byte> utf8,
        [NotNullWhen(true)] out string? text,
        out ImmutableArray<LogTextFault> faults
    )
    {
        text = null;
        if (utf8.Length > BytesMost)
        {
            faults = One(1, Invariant($"{utf8.Length} bytes"), Invariant($"at most {BytesMost} bytes"));
            return false;
        }

        try
        {
            text = Strict.GetString(utf8);
        }
        catch (DecoderFallbackException fault)
        {
            var line = 1 + utf8[..Math.Clamp(fault.Index, 0, utf8.Length)].Count((byte)'\n');
            faults = One(line, "bytes that are not UTF-8", "valid UTF-8");
            return false;
        }

        faults = Unclean(text);
        return faults.IsEmpty;
    }

    public static bool TryNumber(string text, out long value)
    {
        value = 0;
        return text.Length is > 0 and <= 19
            && !text.AsSpan().ContainsAnyExceptInRange('0', '9')
            && (text.Length == 1 || text[0] != '0')
            && long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value);
    }

    /// <summary>Whether a text is one line that is not empty.</summary>
    public static bool IsLine(string text) => text.Length > 0 && !text.Any(IsControl);

    /// <summary>The lines of a text in which every line is whole, without the empty rest behind the last.</summary>
    public static string[] Lines(string text) => text.Length == 0 ? [] : text[..^1].Split('\n');

    public static string Quoted(string line) =>
        line.Length == 0 ? "an empty line"
        : line.Length <= QuotedMost ? $"`{line}`"
        : $"`{line[..QuotedMost]}…`";

    public static ImmutableArray<LogTextFault> One(int line, string found, string accepted) =>
        [new LogTextFault(line, found, accepted)];

    public static string Number(long value) => value.ToString(CultureInfo.InvariantCulture);

    private static ImmutableArray<LogTextFault> Unclean(string text)
    {
        if (text.Length == 0)
        {
            return One(1, "nothing", "lines that each end in a newline");
        }

        var faults = ImmutableArray.CreateBuilder<LogTextFault>();
        var lines = text.Split('\n');
        for (var line = 0; line < lines.Length && faults.Count < FaultsMost; line++)
        {
            if (lines[line].FirstOrDefault(IsControl) is var found && lines[line].Any(IsControl))
            {
                faults.Add(
                    new LogTextFault(
                        line + 1,
                        Invariant($"the control character U+{(int)found:X4}"),
                        "no control character other than the newline that ends a line"
                    )
                );
            }
        }

        if (lines[^1].Length > 0)
        {
            faults.Add(
                new LogTextFault(lines.Length, $"{Quoted(lines[^1])} without an end", "a newline at its end")
            );
        }

        return faults.ToImmutable();
    }

    private static bool IsControl(char character) => character < ' ';

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
