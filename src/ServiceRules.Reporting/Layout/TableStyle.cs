namespace ServiceRules.Reporting.Layout;

/// <summary>Padding of cells in points and the line below each row.</summary>
public sealed record TableStyle(double PaddingX, double PaddingY, Stroke? RowLine = null)
{
    public Ink? HeaderFill { get; init; }

    public Stroke? HeaderLine { get; init; }
}
