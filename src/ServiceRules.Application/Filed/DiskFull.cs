using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Filed;

/// <summary>
/// Whether writing failed because there was no room left: nothing that was given is at fault, and no other way of asking
/// helps.
/// </summary>
public static class DiskFull
{
    // On Unix no room, on Linux and macOS none for this user, and the two of Windows.
    private static readonly int[] Codes =
    [
        28,
        122,
        69,
        unchecked((int)0x80070027),
        unchecked((int)0x80070070),
    ];

    /// <param name="failure">What writing ended with.</param>
    public static bool Is(Exception failure) =>
        (failure is IOException && Codes.Contains(failure.HResult))
        || failure is LedgerStoreException { Trouble: StoreTrouble.Full }
        || IsTooLarge(failure)
        || (failure.InnerException is { } inner && Is(inner));

    /// <summary>What the system says, or our own words where it speaks of an argument that nobody gave.</summary>
    /// <param name="failure">What writing ended with.</param>
    public static string Told(Exception failure) =>
        IsTooLarge(failure) ? "a file may not grow any further here" : failure.Message;

    // A limit on the size of files is told as an argument out of range.
    private static bool IsTooLarge(Exception failure) =>
        failure is ArgumentOutOfRangeException { ParamName: "value" };
}
