//! Points and directions as plans write them: three numbers.

use nalgebra::{Point3, Vector3};
use serde::{Serialize, Serializer};

/// A point, mm.
pub(crate) fn coordinates<T: Copy + Serialize + nalgebra::Scalar, S: Serializer>(
    point: &Point3<T>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    [point.x, point.y, point.z].serialize(serializer)
}

/// The components of a direction.
pub(crate) fn components<T: Copy + Serialize + nalgebra::Scalar, S: Serializer>(
    vector: &Vector3<T>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    [vector.x, vector.y, vector.z].serialize(serializer)
}
