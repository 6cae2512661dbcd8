namespace ServiceRules.Reporting.Layout;

/// <summary>The four shipped cuts of the report's one type family.</summary>
public enum Face
{
    Text,
    TextBold,
    Narrow,
    NarrowBold,
}
