namespace ServiceRules.Reporting.Signing;

/// <summary>
/// The reason in the signature dictionary. It says whether the signature is time-stamped, and since it is signed, a
/// time-stamp can be neither taken away nor put in unseen.
/// </summary>
internal static class SignatureReason
{
    private const string Issued = "Issued service report";
    private const string Asking = Issued + "; time-stamp asked of ";
    private const int HostLengthMax = 280;

    public static string Of(string? timestampAskedOf) =>
        timestampAskedOf is null ? Issued : Asking + timestampAskedOf;

    public static bool TryRead(string? reason, out string? timestampAskedOf)
    {
        timestampAskedOf = null;
        if (reason == Issued)
        {
            return true;
        }
        if (reason?.StartsWith(Asking, StringComparison.Ordinal) != true)
        {
            return false;
        }
        timestampAskedOf = reason[Asking.Length..];
        return IsHost(timestampAskedOf);
    }

    /// <summary>A host name in plain letters or an address, with its port when that is not the usual one.</summary>
    public static bool IsHost(string text) =>
        text.Length is > 0 and <= HostLengthMax
        && text.All(symbol => char.IsAsciiLetterOrDigit(symbol) || symbol is '.' or '-' or ':' or '[' or ']');
}
