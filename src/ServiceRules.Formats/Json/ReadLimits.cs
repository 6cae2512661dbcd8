namespace ServiceRules.Formats.Json;

/// <summary>How much one document may hold. Every bound is stated so that hostile input ends early.</summary>
/// <param name="Bytes">The most bytes a document may have.</param>
/// <param name="Values">The most values (objects, lists, texts, numbers, flags) it may hold.</param>
public sealed record ReadLimits(int Bytes, int Values)
{
    /// <summary>
    /// Objects and lists within each other. The deepest document of this product needs about a dozen levels;
    /// the rest is room for later versions, and far from what a call stack bears.
    /// </summary>
    public const int Depth = 32;

    /// <summary>Characters in one text. Two printed pages; photos and scans travel by hash, not in a text.</summary>
    public const int TextLength = 4_000;

    /// <summary>Problems told one by one. More than anyone mends in one sitting; the rest is told as a count.</summary>
    public const int ProblemsTold = 100;

    /// <summary>Characters of a found value that a problem repeats: enough to recognise it on one line.</summary>
    public const int FoundLength = 60;

    /// <summary>
    /// Characters of a place that a problem shows. Places in sound documents are far shorter; a name that somebody made
    /// up can be as long as the document.
    /// </summary>
    public const int PointerLength = 200;

    /// <summary>Digits and signs in one number. Exact decimals have at most 29 digits; nothing measured has more.</summary>
    public const int NumberLength = 40;

    /// <summary>
    /// One job. Twelve units with fifty readings each take under 200 KiB; ten times that is generous, and a
    /// value takes at least two bytes, so that the count of values bounds memory where the bytes do not.
    /// </summary>
    public static ReadLimits Record { get; } = new(2 * 1024 * 1024, 100_000);

    /// <summary>Rule packs, registers and assessments: a site's whole set of them, with cases beside the rules.</summary>
    public static ReadLimits Library { get; } = new(8 * 1024 * 1024, 400_000);
}
