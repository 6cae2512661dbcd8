using ServiceRules.Domain.Measurement;

namespace ServiceRules.Formats.Vocabulary;

/// <summary>
/// The coverage factor that a certificate's level and degrees of freedom come to, held to the same bounds as one that it states.
/// On few degrees of freedom Student's factor grows without end, and U divided by it would make any certificate a good one.
/// </summary>
internal static class CertifiedCoverage
{
    public const decimal Least = 1m;

    public const decimal Most = 5m;

    public const string Wrong = "gives a coverage factor above 5 at this level";

    public const string Accepted =
        "a coverage factor from 1 to 5: at least 2 degrees of freedom at 90, 95 and 95.45 %, 4 at 99 %, 6 at 99.73 %; or the `coverageFactor` of the certificate";

    public static bool Hold(CoverageLevel level, int? degreesOfFreedom) =>
        CoverageFactor.At(
            level,
            degreesOfFreedom is { } finite ? DegreesOfFreedom.Of(finite) : DegreesOfFreedom.Infinite
        ) <= Most;
}
