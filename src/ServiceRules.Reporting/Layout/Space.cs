namespace ServiceRules.Reporting.Layout;

/// <summary>The room a block is offered.</summary>
/// <param name="Session">The fonts, and lines broken before.</param>
/// <param name="Width">Points across.</param>
/// <param name="Height">Points left on this page.</param>
/// <param name="FullHeight">Points a fresh page would give.</param>
/// <param name="Fresh">Nothing stands above on this page.</param>
internal readonly record struct Space(
    LayoutSession Session,
    double Width,
    double Height,
    double FullHeight,
    bool Fresh
)
{
    /// <summary>Sums of doubles must not push the last line of an exact fit to the next page.</summary>
    public const double Slack = 0.01;

    public bool Holds(double height) => height <= Height + Slack;

    public Space Inset(double horizontal, double vertical) =>
        this with
        {
            Width = Math.Max(1, Width - horizontal),
            Height = Height - vertical,
            FullHeight = FullHeight - vertical,
        };

    public Space Whole() => this with { Height = FullHeight, Fresh = true };
}
