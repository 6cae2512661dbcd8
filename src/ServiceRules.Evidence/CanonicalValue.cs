using System.Diagnostics.CodeAnalysis;
using System.Text.Json;

namespace ServiceRules.Evidence;

/// <summary>Copies the JSON value at which a reader stands into canonical form; null on success, else the refusal.</summary>
internal static class CanonicalValue
{
    // Enough of a name to recognise it by, little enough for one line of a message.
    private const int QuotedNameLengthMax = 80;

    public static CanonicalRefusal? TryCopy(ref Utf8JsonReader json, CanonicalOutput output)
    {
        switch (json.TokenType)
        {
            case JsonTokenType.StartObject:
                return IsTooDeep(ref json, out var deepObject) ? deepObject : TryCopyObject(ref json, output);
            case JsonTokenType.StartArray:
                return IsTooDeep(ref json, out var deepArray) ? deepArray : TryCopyArray(ref json, output);
            case JsonTokenType.String:
                return TryCopyString(ref json, output, out _);
            case JsonTokenType.Number:
                return TryCopyNumber(ref json, output);
            default:
                // true, false and null are canonical as they stand.
                output.Append(json.ValueSpan);
                return null;
        }
    }

    private static CanonicalRefusal? TryCopyObject(ref Utf8JsonReader json, CanonicalOutput output)
    {
        output.Append((byte)'{');
        var start = output.Length;
        var members = new List<CanonicalMember>();
        while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
        {
            var memberStart = output.Length;
            var offset = json.TokenStartIndex;
            if (TryCopyString(ref json, output, out var name) is { } inName)
            {
                return inName;
            }

            output.Append((byte)':');
            _ = json.Read();
            if (TryCopy(ref json, output) is { } inValue)
            {
                return inValue;
            }

            members.Add(new CanonicalMember(name, memberStart, output.Length - memberStart, offset));
        }

        // RFC 8785 section 3.2.3: by UTF-16 code units, which is what ordinal comparison of strings is.
        members.Sort((left, right) => string.CompareOrdinal(left.Name, right.Name));
        if (FindDuplicate(members) is { } duplicate)
        {
            return duplicate;
        }

        output.Reorder(start, members);
        output.Append((byte)'}');
        return null;
    }

    private static CanonicalRefusal? TryCopyArray(ref Utf8JsonReader json, CanonicalOutput output)
    {
        output.Append((byte)'[');
        var first = true;
        while (json.Read() && json.TokenType != JsonTokenType.EndArray)
        {
            if (!first)
            {
                output.Append((byte)',');
            }

            first = false;
            if (TryCopy(ref json, output) is { } refusal)
            {
                return refusal;
            }
        }

        output.Append((byte)']');
        return null;
    }

    private static CanonicalRefusal? TryCopyNumber(ref Utf8JsonReader json, CanonicalOutput output)
    {
        if (!json.TryGetDouble(out var value) || !double.IsFinite(value))
        {
            return new CanonicalRefusal(
                CanonicalRefusalReason.NumberNotFinite,
                json.TokenStartIndex,
                "a number beyond the range of an IEEE 754 double",
                "a number of magnitude below 1.8e308"
            );
        }

        output.AppendNumber(value);
        return null;
    }

    private static CanonicalRefusal? TryCopyString(
        ref Utf8JsonReader json,
        CanonicalOutput output,
        [NotNull] out string? value
    )
    {
        try
        {
            value = json.GetString() ?? string.Empty;
        }
        catch (InvalidOperationException)
        {
            // The bytes are valid UTF-8 by now, so only an escape can have failed; the reader has no gentler question.
            value = string.Empty;
            return new CanonicalRefusal(
                CanonicalRefusalReason.LoneSurrogate,
                json.TokenStartIndex,
                "an escape that is half of a surrogate pair",
                "escapes that stand for whole Unicode characters"
            );
        }

        output.AppendString(value);
        return null;
    }

    private static bool IsTooDeep(ref Utf8JsonReader json, [NotNullWhen(true)] out CanonicalRefusal? refusal)
    {
        refusal =
            json.CurrentDepth < CanonicalJson.MaxDepth
                ? null
                : new CanonicalRefusal(
                    CanonicalRefusalReason.TooDeep,
                    json.TokenStartIndex,
                    FormattableString.Invariant($"objects and arrays nested {json.CurrentDepth + 1} deep"),
                    FormattableString.Invariant($"at most {CanonicalJson.MaxDepth} levels")
                );
        return refusal is not null;
    }

    private static CanonicalRefusal? FindDuplicate(List<CanonicalMember> ordered)
    {
        for (var index = 1; index < ordered.Count; index++)
        {
            var (one, other) = (ordered[index - 1], ordered[index]);
            if (string.Equals(one.Name, other.Name, StringComparison.Ordinal))
            {
                return new CanonicalRefusal(
                    CanonicalRefusalReason.DuplicateName,
                    Math.Max(one.Offset, other.Offset),
                    $"a second member `{Shortened(other.Name)}` in one object",
                    "each name once"
                );
            }
        }

        return null;
    }

    private static string Shortened(string name) =>
        name.Length <= QuotedNameLengthMax ? name : string.Concat(name.AsSpan(0, QuotedNameLengthMax), "...");
}
