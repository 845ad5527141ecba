//! Groups of figures: a plain struct whose every figure knows its key, its name and its limits.

use crate::units::{Bounds, Kind};

/// What there is to know about one figure of a job apart from its value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spec {
    /// The key in a job file.
    pub key: &'static str,
    /// What the trade calls it.
    pub name: &'static str,
    /// What it measures, in a line.
    pub meaning: &'static str,
    /// What it is a figure of.
    pub kind: Kind,
    /// The range it must lie in, as recorded.
    pub bounds: Bounds,
}

/// A value made of figures of number type `T`.
pub trait Group<T: Copy>: Sized {
    /// The same group over another number type.
    type Over<U: Copy>;

    /// Rebuilds the group, figure by figure in the order of the file. `f` gets the figure's path
    /// (`frame.bb_drop_mm`), what is known of it, and its recorded number.
    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Self::Over<U>;

    /// Visits every figure.
    fn each(&self, at: &str, visit: &mut dyn FnMut(&str, &'static Spec, T)) {
        // Rebuilt over its own number type, so that one walk is compiled and not two.
        let _ = self.map(at, &mut |path, spec, value| {
            visit(path, spec, value);
            value
        });
    }
}

/// The path of `key` below `at`.
pub(crate) fn below(at: &str, key: &str) -> String {
    if at.is_empty() { key.to_owned() } else { format!("{at}.{key}") }
}

/// Declares a group: the struct, its defaults, its list of specs and its [`Group`] walk.
///
/// Each figure is `field: Quantity = "key", "name", default, min..=max;`. A second block, `with { field: Group; }`, holds
/// groups whose figures stand at the same place of the file.
macro_rules! group {
    ($(#[$doc:meta])* $Name:ident {
        $($(#[doc = $meaning:literal])+ $field:ident : $Q:ident = $key:literal, $name:literal, $default:expr, $min:literal ..= $max:literal;)+
    } $(with { $($(#[$part_doc:meta])* $part:ident : $Part:ident;)+ })?) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq)]
        pub struct $Name<T = f64> {
            $($(#[doc = $meaning])+ pub $field: $Q<T>,)+
            $($($(#[$part_doc])* pub $part: $Part<T>,)+)?
        }

        impl Default for $Name {
            fn default() -> Self {
                Self {
                    $($field: $crate::units::Quantity::from_recorded($default),)+
                    $($($part: $Part::default(),)+)?
                }
            }
        }

        impl<T: Copy> $crate::model::Group<T> for $Name<T> {
            type Over<U: Copy> = $Name<U>;
            fn map<U: Copy>(
                &self,
                at: &str,
                f: &mut dyn FnMut(&str, &'static $crate::model::Spec, T) -> U,
            ) -> $Name<U> {
                use $crate::units::Quantity;
                $Name {
                    $($field: {
                        static SPEC: $crate::model::Spec = $crate::model::Spec {
                            key: $key,
                            name: $name,
                            meaning: concat!($($meaning),+),
                            kind: <$Q<f64> as Quantity<f64>>::KIND,
                            bounds: $crate::units::Bounds::new($min, $max),
                        };
                        $Q::from_recorded(f(&$crate::model::group::below(at, $key), &SPEC, self.$field.recorded()))
                    },)+
                    $($($part: $crate::model::Group::map(&self.$part, at, f),)+)?
                }
            }
        }
    };
}
pub(crate) use group;
