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
    public static bool Is(Exception failure) => failure is IOException && Codes.Contains(failure.HResult);
}
