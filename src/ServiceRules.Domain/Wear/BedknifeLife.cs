using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>What is left of a bedknife above its lip limit. F27: limit sourced (MK5, S15), rate the site's own.</summary>
public static class BedknifeLife
{
    /// <summary>Lip left: lip - limit; negative below it.</summary>
    public static Length Remaining(Length lip, Length limit) => lip - limit;

    /// <summary>Whole facings left: (lip - limit) / loss in a facing, rounded down; none at or below the limit.</summary>
    /// <param name="lip">Lip height now.</param>
    /// <param name="limit">Least lip height.</param>
    /// <param name="perFacing">Lip lost in one grind of the top face; more than nothing.</param>
    public static int FacingsLeft(Length lip, Length limit, Length perFacing) =>
        WholeParts.Of(lip - limit, perFacing);
}
