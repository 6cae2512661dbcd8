namespace ServiceRules.Reporting.Layout;

/// <summary>Paper, margins, and what stands above and below the text of every page; lengths in points.</summary>
public sealed record PageDesign(
    double Width,
    double Height,
    double MarginX,
    double MarginY,
    Func<PageNumber, Block>? Header,
    Func<PageNumber, Block>? Footer
)
{
    /// <summary>A4 in points: 210 mm by 297 mm.</summary>
    public const double A4Width = 595.276;

    public const double A4Height = 841.89;

    /// <summary>Space between the running head or foot and the text.</summary>
    public double FurnitureGap { get; init; } = 8;

    /// <summary>Layout that takes more pages ends in failure.</summary>
    public int PagesMax { get; init; } = Pagination.PagesMax;
}
