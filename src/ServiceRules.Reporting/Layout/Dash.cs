namespace ServiceRules.Reporting.Layout;

public enum Dash
{
    Solid,
    Dashed,
    Dotted,
}
