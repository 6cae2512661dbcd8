namespace ServiceRules.Domain.Quantities;

/// <summary>The two halves of a quantity as written: a number, one space, a unit.</summary>
internal readonly record struct QuantityText(string Number, string Unit)
{
    /// <summary>No quantity this product reads needs more; longer text is refused before it is looked at.</summary>
    public const int LongestText = 40;

    /// <summary>Splits at the last space, since <c>1 1/16 in</c> has one inside its number.</summary>
    public static bool TrySplit(string text, out QuantityText halves, out string problem)
    {
        halves = default;
        problem = string.Empty;
        if (text.Length > LongestText)
        {
            problem = $"is longer than {LongestText} characters";
            return false;
        }

        if (text.Length == 0)
        {
            problem = "is empty";
            return false;
        }

        if (char.IsWhiteSpace(text[0]) || char.IsWhiteSpace(text[^1]))
        {
            problem = "has white space before or after it";
            return false;
        }

        int space = text.LastIndexOf(' ');
        if (space < 0)
        {
            problem = "has no space between a number and a unit";
            return false;
        }

        halves = new QuantityText(text[..space], text[(space + 1)..]);
        return true;
    }

    /// <summary>Reads a decimal number and the symbol of its unit; says what is wrong otherwise.</summary>
    public static bool TryRead(string text, out PrintedNumber number, out string unit, out string problem)
    {
        number = default;
        unit = string.Empty;
        if (!TrySplit(text, out QuantityText halves, out problem))
        {
            return false;
        }

        unit = halves.Unit;
        return PrintedNumber.TryRead(halves.Number, out number, out problem);
    }
}
